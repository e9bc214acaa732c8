package dev.ullage.cli;

import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/** One run of the whole tool in this process: what it said, and with which code it ended. */
public record Run(ExitCode code, String out, String err) {

  public static Run of(String... args) {
    return in(Map.of(), args);
  }

  /** As above, with these environment variables. */
  static Run in(Map<String, String> environment, String... args) {
    return with("", environment, args);
  }

  /** As above, with this on standard input. */
  static Run with(String input, Map<String, String> environment, String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Surroundings around =
        new Surroundings(
            new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)),
            new PrintWriter(out),
            new PrintWriter(err),
            environment,
            false,
            false);
    ExitCode code = new Tool(around).run(args);
    return new Run(code, out.toString(), err.toString());
  }

  /** True if nothing was complained of. */
  public boolean isGood() {
    return code == ExitCode.GOOD && err.isEmpty();
  }
}
