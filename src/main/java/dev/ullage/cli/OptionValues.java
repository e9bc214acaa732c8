package dev.ullage.cli;

import dev.ullage.report.Format;
import dev.ullage.report.SurveyOrder;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.TypeConversionException;

/** How the words of a command line become values, and what is said when they cannot. */
final class OptionValues {
  private OptionValues() {}

  static void register(CommandLine root) {
    root.registerConverter(Format.class, word -> choice(word, Format.values()));
    root.registerConverter(
        OutputOptions.When.class, word -> choice(word, OutputOptions.When.values()));
    root.registerConverter(SurveyOrder.class, word -> choice(word, SurveyOrder.values()));
    root.registerConverter(BigDecimal.class, OptionValues::volts);
  }

  private static <E extends Enum<E>> E choice(String word, E[] choices) {
    return Stream.of(choices)
        .filter(choice -> lower(choice).equals(word.toLowerCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(() -> expected(words(choices), word));
  }

  private static <E extends Enum<E>> String words(E[] choices) {
    return Stream.of(choices)
        .map(choice -> '`' + lower(choice) + '`')
        .collect(Collectors.joining(", ", "one of ", ""));
  }

  private static String lower(Enum<?> choice) {
    return choice.name().toLowerCase(Locale.ROOT);
  }

  private static BigDecimal volts(String word) {
    if (!word.matches("[0-9]{1,3}([.][0-9]{1,3})?")) {
      throw expected("a voltage such as `2.7`", word);
    }
    return new BigDecimal(word);
  }

  private static TypeConversionException expected(String what, String found) {
    return new TypeConversionException("it must be %s, but was `%s`".formatted(what, found));
  }
}
