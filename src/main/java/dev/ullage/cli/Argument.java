package dev.ullage.cli;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/**
 * An option or a parameter: what it is called, what it means and, once the command line is parsed,
 * its value.
 *
 * <p>The argument library could read all this from annotations too, but that makes a short run half
 * as long again.
 *
 * @param <T> type of the value
 */
final class Argument<T> {
  private final ArgSpec spec;

  private Argument(ArgSpec spec) {
    this.spec = spec;
  }

  /** A parameter that has to be there. */
  static <T> Argument<T> parameter(String label, Class<T> type, String description) {
    return positional("0", "1", label, type, description);
  }

  /** The one that has to follow it. */
  static <T> Argument<T> secondParameter(String label, Class<T> type, String description) {
    return positional("1", "1", label, type, description);
  }

  /** A parameter that may be left out. */
  static <T> Argument<T> optionalParameter(String label, Class<T> type, String description) {
    return positional("0", "0..1", label, type, description);
  }

  private static <T> Argument<T> positional(
      String index, String arity, String label, Class<T> type, String description) {
    return new Argument<>(
        PositionalParamSpec.builder()
            .index(index)
            .arity(arity)
            .required(!arity.startsWith("0"))
            .paramLabel(label)
            .type(type)
            .description(description)
            .build());
  }

  /** An option without a value. */
  static Argument<Boolean> flag(String name, String description) {
    return new Argument<>(
        OptionSpec.builder(name)
            .type(boolean.class)
            .initialValue(false)
            .description(description)
            .build());
  }

  // Below, names are those of one option with a blank between: "-o --output".

  /** An option that has to be there. */
  static <T> Argument<T> required(String names, String label, Class<T> type, String description) {
    return new Argument<>(option(names, label, description).type(type).required(true).build());
  }

  /** An option that may be left out. */
  static <T> Argument<T> option(String names, String label, Class<T> type, String description) {
    return new Argument<>(option(names, label, description).type(type).build());
  }

  /** An option with a value for where it is left out. */
  static <T> Argument<T> option(
      String names, String label, Class<T> type, String otherwise, String description) {
    return new Argument<>(
        option(names, label, description).type(type).defaultValue(otherwise).build());
  }

  /** An option that may be there several times. */
  static Argument<List<String>> several(String name, String label, String description) {
    return new Argument<>(
        option(name, label, description)
            .type(List.class)
            .auxiliaryTypes(String.class)
            .initialValue(List.of())
            .build());
  }

  private static OptionSpec.Builder option(String names, String label, String description) {
    return OptionSpec.builder(names.split(" ")).paramLabel(label).description(description);
  }

  void addTo(CommandSpec command) {
    command.add(spec);
  }

  /** What was written, or the value for where nothing was. */
  T value() {
    return spec.getValue();
  }

  /** What was written; empty where nothing was. */
  Optional<T> ifGiven() {
    return Optional.ofNullable(spec.getValue());
  }
}
