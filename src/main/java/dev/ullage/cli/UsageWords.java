package dev.ullage.cli;

import dev.ullage.input.Nearest;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/**
 * What is wrong with a command line, as every other message says it: the library has other words.
 */
final class UsageWords {
  private static final Pattern INVALID =
      Pattern.compile("Invalid value for (?:option|positional parameter at index \\S+) .*?: (.*)");

  private static final int NEAREST_SHOWN = 1;

  private UsageWords() {}

  /** One sentence without a full stop. */
  static String of(ParameterException mistake) {
    if (mistake instanceof MissingParameterException missing && !missing.getMissing().isEmpty()) {
      return missing(missing.getMissing());
    }
    if (mistake instanceof UnmatchedArgumentException unmatched) {
      return unmatched(unmatched);
    }
    Matcher invalid = INVALID.matcher(String.valueOf(mistake.getMessage()));
    Optional<ArgSpec> argument = Optional.ofNullable(mistake.getArgSpec());
    return invalid.matches() && argument.isPresent()
        ? '`' + name(argument.get()) + "` " + invalid.group(1)
        : String.valueOf(mistake.getMessage());
  }

  private static String missing(List<ArgSpec> arguments) {
    String names =
        arguments.stream()
            .map(each -> '`' + name(each) + label(each) + '`')
            .collect(Collectors.joining(" and "));
    return names + (arguments.size() == 1 ? " is missing" : " are missing");
  }

  private static String unmatched(UnmatchedArgumentException mistake) {
    String found = mistake.getUnmatched().get(0);
    CommandLine command = mistake.getCommandLine();
    if (mistake.isUnknownOption()) {
      return "There is no option `" + found + '`' + nearestOption(found, command);
    }
    return command.getSubcommands().isEmpty()
        ? "`" + found + "` is one argument too many"
        : "There is no command `" + found + "`; nearest: " + nearest(found, command);
  }

  private static String nearestOption(String found, CommandLine command) {
    List<String> names =
        command.getCommandSpec().options().stream().map(OptionSpec::longestName).toList();
    return Nearest.to(found, names).map(near -> "; nearest: `" + near + '`').orElse("");
  }

  private static String nearest(String found, CommandLine command) {
    List<String> names = List.copyOf(command.getSubcommands().keySet());
    return Nearest.several(found, names, NEAREST_SHOWN).stream()
        .map(near -> '`' + near + '`')
        .collect(Collectors.joining(", "));
  }

  private static String name(ArgSpec argument) {
    return argument instanceof OptionSpec option ? option.longestName() : argument.paramLabel();
  }

  private static String label(ArgSpec argument) {
    return argument.isOption() ? ' ' + argument.paramLabel() : "";
  }
}
