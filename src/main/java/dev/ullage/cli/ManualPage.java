package dev.ullage.cli;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * The manual page of a command, in the {@code man} macros of roff. Undated: it is that of a
 * version.
 */
final class ManualPage {
  private static final List<String> EXITS =
      List.of(
          "good",
          "it does not fit, or there are findings",
          "the command line cannot be carried out",
          "an input file is wrong",
          "a mistake in the tool");

  private final CommandSpec command;
  private final String name;
  private final StringBuilder page = new StringBuilder();

  ManualPage(CommandSpec command) {
    this.command = command;
    this.name = command.qualifiedName("-");
  }

  String text() {
    String title = quoted(name.toUpperCase(java.util.Locale.ROOT));
    line(".TH " + title + " 1 \"\" " + quoted("ullage " + Version.text()) + " \"ullage\"");
    section("NAME");
    line(escaped(name) + " \\- " + prose(header()));
    section("SYNOPSIS");
    line(synopsis());
    section("DESCRIPTION");
    description().forEach(this::paragraph);
    parameters();
    options();
    commands();
    exits();
    footer();
    seeAlso();
    return page.toString();
  }

  private String header() {
    boolean root = command.parent() == null;
    String words = root ? "what is left of a microcontroller" : command.usageMessage().header()[0];
    return words.endsWith(".") ? words.substring(0, words.length() - 1) : words;
  }

  private Stream<String> description() {
    return Arrays.stream(command.usageMessage().description()).filter(text -> !text.isEmpty());
  }

  private String synopsis() {
    String parameters =
        command.positionalParameters().stream()
            .map(each -> ' ' + (each.required() ? label(each) : '[' + label(each) + ']'))
            .collect(Collectors.joining());
    String rest = command.subcommands().isEmpty() ? parameters : " \\fICOMMAND\\fR [...]";
    String required =
        command.options().stream()
            .filter(OptionSpec::required)
            .map(each -> ' ' + bold(each.shortestName()) + ' ' + italic(each.paramLabel()))
            .collect(Collectors.joining());
    return bold(command.qualifiedName(" ")) + " [\\fIOPTION\\fR...]" + required + rest;
  }

  private static String label(PositionalParamSpec parameter) {
    return italic(parameter.paramLabel());
  }

  private void parameters() {
    if (!command.positionalParameters().isEmpty()) {
      section("PARAMETERS");
      command
          .positionalParameters()
          .forEach(each -> item(label(each), each.description(), each.defaultValueString()));
    }
  }

  private void options() {
    section("OPTIONS");
    for (OptionSpec option : command.options()) {
      String names =
          Arrays.stream(option.names()).map(ManualPage::bold).collect(Collectors.joining(", "));
      boolean takesValue = option.arity().max() > 0;
      item(
          takesValue ? names + ' ' + italic(option.paramLabel()) : names,
          option.description(),
          option.defaultValueString());
    }
  }

  private void commands() {
    if (!command.subcommands().isEmpty()) {
      section("COMMANDS");
      command
          .subcommands()
          .forEach(
              (word, each) -> item(bold(word), each.getCommandSpec().usageMessage().header(), ""));
    }
  }

  private void exits() {
    section("EXIT STATUS");
    for (ExitCode code : ExitCode.values()) {
      item(bold("" + code.number()), new String[] {EXITS.get(code.number())}, "");
    }
  }

  private void footer() {
    section("EXAMPLE");
    Arrays.stream(command.usageMessage().footer())
        .filter(text -> text.startsWith("Example: "))
        .forEach(text -> paragraph(text.substring("Example: ".length())));
  }

  private void seeAlso() {
    CommandLine root = command.root().commandLine();
    section("SEE ALSO");
    line(
        Stream.concat(
                Stream.of("ullage"), root.getSubcommands().keySet().stream().map("ullage-"::concat))
            .filter(other -> !other.equals(name))
            .map(other -> bold(other) + "(1)")
            .collect(Collectors.joining(",\n")));
  }

  private void section(String title) {
    line(".SH " + quoted(title));
  }

  private void paragraph(String text) {
    line(".PP");
    line(prose(text));
  }

  private void item(String term, String[] description, String otherwise) {
    line(".TP");
    line(term);
    line(
        Arrays.stream(description)
            .filter(text -> !text.isEmpty())
            .map(text -> prose(text.replace("${DEFAULT-VALUE}", otherwise)))
            .collect(Collectors.joining("\n")));
  }

  private void line(String text) {
    page.append(text).append('\n');
  }

  private static String quoted(String text) {
    return '"' + escaped(text) + '"';
  }

  private static String bold(String text) {
    return "\\fB" + escaped(text) + "\\fR";
  }

  private static String italic(String text) {
    return "\\fI" + escaped(text) + "\\fR";
  }

  /** Running text: what stands between backticks is bold, and no line is taken for a request. */
  private static String prose(String text) {
    String marked = escaped(text).replaceAll("`([^`]*)`", "\\\\fB$1\\\\fR");
    return marked.startsWith(".") || marked.startsWith("'") ? "\\&" + marked : marked;
  }

  /** A hyphen that can be copied into a shell, and no escape of its own. */
  private static String escaped(String text) {
    return text.replace("\\", "\\e").replace("-", "\\-").replace("\"", "\\(dq");
  }
}
