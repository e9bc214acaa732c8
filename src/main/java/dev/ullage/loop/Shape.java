package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.List;

/** What may stand behind a key of the loop file. */
sealed interface Shape {

  /** Continues a sentence that begins "must be". */
  String expected();

  /**
   * A whole number, held as {@code Long}.
   *
   * @param zeroToo true if 0 is allowed below {@code min}
   * @param hex true for what people know in hexadecimal
   * @param what a noun for it, such as {@code whole number}
   */
  record Whole(long min, long max, boolean zeroToo, boolean hex, String what) implements Shape {
    boolean holds(long value) {
      return min <= value && value <= max || zeroToo && value == 0;
    }

    String shown(long value) {
      return hex ? Hex.shown(value) : Long.toString(value);
    }

    @Override
    public String expected() {
      String range = "a " + what + " from " + shown(min) + " to " + shown(max);
      return zeroToo ? "0 or " + range : range;
    }
  }

  /** A number, exact, without trailing zeros, held as {@code BigDecimal}. */
  record Decimal(BigDecimal min, BigDecimal max) implements Shape {
    /** What the reader keeps after the point; more is a mistake, not a sensor. */
    static final int MAX_DECIMALS = 9;

    boolean holds(BigDecimal value) {
      return min.compareTo(value) <= 0 && value.compareTo(max) <= 0;
    }

    @Override
    public String expected() {
      return "a number from "
          + min.toPlainString()
          + " to "
          + max.toPlainString()
          + " with at most "
          + MAX_DECIMALS
          + " decimals";
    }
  }

  /** Yes or no, held as {@code Boolean}. */
  record Flag() implements Shape {
    @Override
    public String expected() {
      return "true or false";
    }
  }

  /**
   * One of some words, held as {@code String}.
   *
   * @param later words that the loop file will know, but that nothing here can do yet
   */
  record Choice(List<String> words, List<String> later) implements Shape {
    @Override
    public String expected() {
      return words.size() == 1 ? words.get(0) : "one of " + String.join(", ", words);
    }
  }

  /**
   * A short text, held as {@code String}: printable, not blank.
   *
   * @param maxCharacters in code points
   */
  record Text(int maxCharacters) implements Shape {
    @Override
    public String expected() {
      return "a text of 1 to " + maxCharacters + " printable characters";
    }
  }

  /** The name of a pin, held as {@code String}. */
  record PinName() implements Shape {
    static final int MAX_CHARACTERS = 8;

    /** {@code PB0}, {@code P0.13}, {@code PIO0_14}. */
    static final String PATTERN = "[A-Z][A-Z0-9]*([._][0-9]+)?";

    @Override
    public String expected() {
      return "a pin's name as the data sheet has it, such as PB0";
    }
  }

  /** Bytes, held as {@code List<Integer>}. */
  record Bytes(int maxCount) implements Shape {
    @Override
    public String expected() {
      return "a list of at most " + maxCount + " bytes, such as [0x24, 0x00]";
    }
  }

  /**
   * More keys.
   *
   * @param noneToo true if the word {@code none} may stand there instead
   */
  record Group(List<Key> keys, boolean noneToo) implements Shape {
    List<String> names() {
      return keys.stream().map(Key::name).toList();
    }

    @Override
    public String expected() {
      String keyed = "a mapping with the keys " + String.join(", ", names());
      return noneToo ? "none, or " + keyed : keyed;
    }
  }
}
