package dev.ullage.cli;

import dev.ullage.input.Nearest;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;

/** What every command has: a name, help, its surroundings, and an exit code for an answer. */
abstract class BaseCommand implements Callable<Integer> {
  private static final int NEAREST_SHOWN = 3;

  final Surroundings around;

  private final CommandSpec spec = CommandSpec.wrapWithoutInspection(this);

  BaseCommand(String name, Surroundings around) {
    this.around = around;
    spec.name(name);
    spec.addOption(
        OptionSpec.builder("-h", "--help")
            .type(boolean.class)
            .usageHelp(true)
            .description("Show this text.")
            .build());
  }

  /**
   * What the help says.
   *
   * @param header one line, for the list of commands too
   * @param description a paragraph
   * @param example a command line
   */
  final void describe(String header, String description, String example) {
    spec.usageMessage()
        .header(header, "")
        .description("", description)
        .parameterListHeading("%nParameters:%n")
        .optionListHeading("%nOptions:%n")
        .footer("", "Example: " + example);
  }

  final void take(Argument<?>... arguments) {
    for (Argument<?> argument : arguments) {
      argument.addTo(spec);
    }
  }

  final CommandSpec spec() {
    return spec;
  }

  /** Does what the options say. */
  abstract ExitCode run();

  @Override
  public final Integer call() {
    return run().number();
  }

  /** Prints the result, or writes it to the file. */
  final void deliver(String text, Optional<Path> file) {
    try {
      new Results(around).deliver(text, file);
    } catch (IOException e) {
      throw wrongUse("`" + file.orElseThrow() + "` cannot be written: " + reason(e));
    }
  }

  private static String reason(IOException e) {
    return switch (e.getClass().getSimpleName()) {
      case "NoSuchFileException" -> "its folder does not exist";
      case "AccessDeniedException" -> "permission denied";
      default ->
          e instanceof FileSystemException refused && refused.getReason() != null
              ? refused.getReason()
              : String.valueOf(e.getMessage());
    };
  }

  /** The part of that name. */
  final Part part(Catalogue catalogue, String name) {
    return catalogue
        .part(name)
        .orElseThrow(
            () -> unknown("target", name, catalogue.parts().stream().map(Part::name).toList()));
  }

  /** The part of that name, which must have a port. */
  final Target target(Catalogue catalogue, String name) {
    if (part(catalogue, name) instanceof Target target) {
      return target;
    }
    throw wrongUse("`" + name + "` is listed only: its limits are known, but it has no port yet");
  }

  /** A name that is none of the known ones, which are in lower case; thrown by the caller. */
  final ParameterException unknown(String what, String name, List<String> known) {
    return unknown(what, name, name.toLowerCase(Locale.ROOT), known);
  }

  /**
   * The same for known names in another case.
   *
   * @param sought the name in that case
   */
  final ParameterException unknown(String what, String name, String sought, List<String> known) {
    String nearest =
        Nearest.several(sought, known, NEAREST_SHOWN).stream()
            .map(near -> '`' + near + '`')
            .collect(Collectors.joining(", "));
    return wrongUse("There is no " + what + " `" + name + "`; nearest: " + nearest);
  }

  /** A command line that cannot be carried out; thrown by the caller. */
  final ParameterException wrongUse(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
