package dev.ullage.cli;

import dev.ullage.input.Printable;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.LoopSchema;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Checks a loop file, fills it in, or says how one is written. */
@Command(
    name = "loop",
    header = {"Check a loop file, or explain it.", ""},
    description = {
      "",
      "Checks a loop file and names everything that is wrong with it, each with its line, what"
          + " was found and what was expected.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage loop cold-store.yaml --explain"})
final class LoopCommand extends BaseCommand {
  @Parameters(
      paramLabel = "LOOP",
      arity = "0..1",
      description = "The loop file; not needed with --schema.")
  private @Nullable Path file;

  @Option(
      names = "--explain",
      description = "Print the file with every default filled in and every key explained.")
  private boolean explain;

  @Option(
      names = "--schema",
      description = "Print the JSON Schema of loop files, for editors that complete and check.")
  private boolean schema;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      description = "Write to this file, all or nothing, instead of printing.")
  private @Nullable Path output;

  LoopCommand(Surroundings around) {
    super(around);
  }

  @Override
  ExitCode run() {
    deliver(schema ? LoopSchema.json() : ofFile(), Optional.ofNullable(output));
    return ExitCode.GOOD;
  }

  private String ofFile() {
    if (file == null) {
      throw wrongUse("Missing required parameter: 'LOOP'");
    }
    Loop loop = LoopReader.read(file);
    return explain
        ? LoopPrinter.print(loop)
        : Printable.of(file + ": nothing wrong with `" + loop.name() + "`.") + "\n";
  }
}
