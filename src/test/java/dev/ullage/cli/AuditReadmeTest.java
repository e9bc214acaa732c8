package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the README shows of audits is what happens. */
class AuditReadmeTest {
  private static final Path README = Path.of("README.md");
  private static final Pattern SHOWN =
      Pattern.compile(
          "```text\n\\$ target/ullage audit firmware\n(.*?)\n[.]{3}\n```", Pattern.DOTALL);
  private static final Pattern SCRIPT =
      Pattern.compile("```sh\n(# Builds the firmware.*?)```", Pattern.DOTALL);

  @TempDir private static Path folder;

  @BeforeAll
  static void build() throws IOException {
    GrownFirmware.grown(folder.resolve("firmware"));
  }

  private static Matcher find(Pattern pattern) throws IOException {
    Matcher matcher = pattern.matcher(Files.readString(README));
    assertTrue(matcher.find(), pattern.pattern());
    return matcher;
  }

  /** As much of the output as is shown, up to the table of modules. */
  @Test
  void shownOutput_isWhatAnAuditBeginsWith() throws IOException {
    String out = Run.of("audit", folder.resolve("firmware").toString()).out();
    String real = out.substring(0, out.indexOf("\n\nmodule "));
    Matcher shown = find(SHOWN);
    if (System.getProperty("ullage.golden", "check").equals("write")) {
      String text = Files.readString(README);
      Files.writeString(
          README, text.substring(0, shown.start(1)) + real + text.substring(shown.end(1)));
    }
    assertEquals(real, find(SHOWN).group(1));
  }

  @Test
  void shownScript_failsTheBuildThatGrew() throws IOException {
    String tool =
        "java -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -cp '"
            + System.getProperty("java.class.path")
            + "' dev.ullage.cli.Main";
    String script = find(SCRIPT).group(1).replace("target/ullage", tool);
    Files.writeString(folder.resolve("build.sh"), script);
    Tool.Run run = Tool.run(folder, "sh", "build.sh");
    assertEquals(ExitCode.FINDINGS.number(), run.exit(), run.output());
    assertTrue(run.output().contains("above --max-growth"), run.output());
    assertTrue(Files.readString(folder.resolve("audit.md")).startsWith("# cold-store guard"));
    assertTrue(Files.readString(folder.resolve("audit.svg")).contains("</svg>"));
    Run.of("audit", folder.resolve("firmware").toString(), "--accept");
    assertEquals(ExitCode.GOOD.number(), Tool.run(folder, "sh", "build.sh").exit());
    Tool.output(folder.resolve("firmware"), "rm", "ullage.baseline");
  }
}
