package dev.ullage.cli;

import dev.ullage.input.Printable;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.LoopSchema;
import java.nio.file.Path;

/** Checks a loop file, fills it in, or says how one is written. */
final class LoopCommand extends BaseCommand {
  private final Argument<Path> file =
      Argument.optionalParameter("LOOP", Path.class, "The loop file; not needed with --schema.");
  private final Argument<Boolean> explain =
      Argument.flag(
          "--explain", "Print the file with every default filled in and every key explained.");
  private final Argument<Boolean> schema =
      Argument.flag(
          "--schema", "Print the JSON Schema of loop files, for editors that complete and check.");
  private final Argument<Path> output =
      Argument.option(
          "-o --output",
          "FILE",
          Path.class,
          "Write to this file, all or nothing, instead of printing.");

  LoopCommand(Surroundings around) {
    super("loop", around);
    describe(
        "Check a loop file, or explain it.",
        "Checks a loop file and names everything that is wrong with it, each with its line, what"
            + " was found and what was expected.",
        "ullage loop cold-store.yaml --explain");
    take(file, explain, schema, output);
  }

  @Override
  ExitCode run() {
    deliver(schema.value() ? LoopSchema.json() : ofFile(), output.ifGiven());
    return ExitCode.GOOD;
  }

  private String ofFile() {
    Path path = file.ifGiven().orElseThrow(() -> wrongUse("`LOOP` is missing"));
    Loop loop = LoopReader.read(path);
    return explain.value()
        ? LoopPrinter.print(loop)
        : Printable.of(path + ": nothing wrong with `" + loop.name() + "`.") + "\n";
  }
}
