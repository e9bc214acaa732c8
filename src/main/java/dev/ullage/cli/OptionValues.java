package dev.ullage.cli;

import dev.ullage.replay.TraceOptions;
import dev.ullage.report.Format;
import dev.ullage.report.SurveyOrder;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** How the words of a command line become values, and what is said when they cannot. */
final class OptionValues {
  private OptionValues() {}

  // No lambdas for the library's interfaces: they would keep half of it out of the class archive.
  static void register(CommandLine root) {
    root.registerConverter(Format.class, new Choice<>(Format.values()));
    root.registerConverter(SurveyFormat.class, new Choice<>(SurveyFormat.values()));
    root.registerConverter(WiringFormat.class, new Choice<>(WiringFormat.values()));
    root.registerConverter(OutputOptions.When.class, new Choice<>(OutputOptions.When.values()));
    root.registerConverter(SurveyOrder.class, new Choice<>(SurveyOrder.values()));
    root.registerConverter(TraceOptions.Values.class, new Choice<>(TraceOptions.Values.values()));
    root.registerConverter(TraceOptions.Missing.class, new Choice<>(TraceOptions.Missing.values()));
    root.registerConverter(BigDecimal.class, new Volts());
    root.registerConverter(Integer.class, new Count());
  }

  private static TypeConversionException expected(String what, String found) {
    return new TypeConversionException("must be " + what + ", but was `" + found + '`');
  }

  /** One of a few words, whatever their case. */
  private static final class Choice<E extends Enum<E>> implements ITypeConverter<E> {
    private final E[] choices;

    Choice(E[] choices) {
      this.choices = choices;
    }

    @Override
    public E convert(String word) {
      List<String> words = new ArrayList<>();
      for (E choice : choices) {
        if (choice.name().equalsIgnoreCase(word)) {
          return choice;
        }
        words.add('`' + choice.name().toLowerCase(Locale.ROOT) + '`');
      }
      throw expected("one of " + String.join(", ", words), word);
    }
  }

  /** A supply voltage. */
  private static final class Volts implements ITypeConverter<BigDecimal> {
    @Override
    public BigDecimal convert(String word) {
      if (!word.matches("[0-9]{1,3}([.][0-9]{1,3})?")) {
        throw expected("a voltage such as `2.7`", word);
      }
      return new BigDecimal(word);
    }
  }

  /** A whole number. */
  private static final class Count implements ITypeConverter<Integer> {
    @Override
    public Integer convert(String word) {
      if (!word.matches("-?[0-9]{1,9}")) {
        throw expected("a whole number", word);
      }
      return Integer.valueOf(word);
    }
  }
}
