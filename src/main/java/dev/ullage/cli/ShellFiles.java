package dev.ullage.cli;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Part;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * What the build leaves beside the launcher for a shell: completion for bash and zsh, and a manual
 * page for each command. Made of the commands themselves.
 */
public final class ShellFiles {
  private final CommandLine root;
  private final Map<String, List<String>> words;

  private ShellFiles(CommandLine root, List<Part> parts) {
    this.root = root;
    this.words =
        Map.of(
            "TARGET", parts.stream().map(Part::name).toList(),
            "--family", parts.stream().map(Part::familyName).distinct().toList(),
            "--core", parts.stream().map(Part::core).distinct().toList());
  }

  /** Writes them below the folder that is the only argument. */
  public static void main(String[] args) throws IOException {
    write(Path.of(args[0]));
  }

  static void write(Path folder) throws IOException {
    CommandLine root = new Tool(Surroundings.ofProcess(new StandardOutput())).wholeCommandLine();
    new ShellFiles(root, Catalogue.load().parts()).writeTo(folder);
  }

  private void writeTo(Path folder) throws IOException {
    Path pages = Files.createDirectories(folder.resolve("man/man1"));
    writePage(pages, root.getCommandSpec());
    for (CommandLine command : root.getSubcommands().values()) {
      writePage(pages, command.getCommandSpec());
    }
    root.getSubcommands().values().forEach(command -> offerWords(command.getCommandSpec()));
    Path completion = Files.createDirectories(folder.resolve("ullage"));
    String script = AutoComplete.bash("ullage", root).replace("\r\n", "\n");
    Files.writeString(completion.resolve("completion.sh"), script);
  }

  private static void writePage(Path folder, CommandSpec command) throws IOException {
    String name = command.qualifiedName("-");
    Files.writeString(folder.resolve(name + ".1"), new ManualPage(command).text());
  }

  /** The library knows the words of an enumeration only as they are written in Java. */
  private void offerWords(CommandSpec command) {
    for (OptionSpec option : List.copyOf(command.options())) {
      wordsFor(option, option.longestName())
          .ifPresent(
              offered -> {
                command.remove(option);
                command.addOption(OptionSpec.builder(option).completionCandidates(offered).build());
              });
    }
    for (PositionalParamSpec parameter : List.copyOf(command.positionalParameters())) {
      wordsFor(parameter, parameter.paramLabel())
          .ifPresent(
              offered -> {
                command.remove(parameter);
                command.addPositional(
                    PositionalParamSpec.builder(parameter).completionCandidates(offered).build());
              });
    }
  }

  private Optional<List<String>> wordsFor(ArgSpec argument, String name) {
    if (argument.type().isEnum()) {
      return Optional.of(
          Arrays.stream(argument.type().getEnumConstants())
              .map(each -> ((Enum<?>) each).name().toLowerCase(Locale.ROOT))
              .toList());
    }
    return Optional.ofNullable(words.get(name)).or(() -> known(argument.paramLabel()));
  }

  private Optional<List<String>> known(String label) {
    return Optional.ofNullable(words.get(label));
  }
}
