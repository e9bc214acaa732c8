package dev.ullage.audit;

import dev.ullage.loop.Margin;
import dev.ullage.sizing.Verdict;
import dev.ullage.sizing.Verdict.Kind;
import java.util.ArrayList;
import java.util.List;

/**
 * Holds figures against the memories of a part.
 *
 * @param flash, ram what a program needs of each, the stack included where it has a bound
 * @param flashMargin, ramMargin what must stay free
 * @param flashLeft, ramLeft what is free beyond that; negative where it is short
 */
public record Fit(
    Verdict verdict,
    int flash,
    int flashMargin,
    int flashLeft,
    int ram,
    int ramMargin,
    int ramLeft) {

  /** The same figures with another verdict: something other than memory decides. */
  Fit because(Verdict other) {
    return new Fit(other, flash, flashMargin, flashLeft, ram, ramMargin, ramLeft);
  }

  /** RAM that is taken: variables, and the deeper of the stack and what is set aside for it. */
  static int ram(Measured measured) {
    int stack = measured.stack().isBound() ? measured.stack().bytes() : 0;
    return measured.figures().staticRam() + Math.max(stack, measured.figures().reserved());
  }

  /**
   * @param flashBytes, ramBytes, eepromBytes what the part has
   */
  static Fit of(Measured measured, int flashBytes, int ramBytes, int eepromBytes, Margin margin) {
    int flash = measured.figures().flash();
    int ram = ram(measured);
    int flashMargin = margin.flashBytes(flashBytes);
    int flashLeft = flashBytes - flash - flashMargin;
    int ramLeft = ramBytes - ram - margin.ramBytes();
    boolean flashDecides =
        (double) flashLeft / Math.max(1, flashBytes) < (double) ramLeft / Math.max(1, ramBytes);
    Kind kind = kind(measured, flashBytes - flash, flashLeft, ramBytes - ram, ramLeft);
    String reason =
        flashDecides
            ? flashSentence(measured, flashMargin, flashBytes)
            : ramSentence(measured, margin.ramBytes(), ramBytes);
    Verdict verdict = new Verdict(kind, flashDecides ? "flash" : "ram", reason);
    if (measured.figures().eeprom() > eepromBytes) {
      String lack =
          "%d B of EEPROM are used, but the part has %d B"
              .formatted(measured.figures().eeprom(), eepromBytes);
      verdict = new Verdict(Kind.LACKS, "eeprom", lack);
    }
    return new Fit(verdict, flash, flashMargin, flashLeft, ram, margin.ramBytes(), ramLeft);
  }

  private static Kind kind(
      Measured measured, int flashFree, int flashLeft, int ramFree, int ramLeft) {
    if (flashFree < 0 || ramFree < 0) {
      return Kind.OVER;
    }
    boolean certain = measured.stack().isBound() && measured.figures().ramKnown();
    return certain && flashLeft >= 0 && ramLeft >= 0 ? Kind.FITS : Kind.TIGHT;
  }

  private static String flashSentence(Measured measured, int margin, int capacity) {
    Figures f = measured.figures();
    Terms terms = new Terms();
    terms.add("vectors", f.vectors());
    terms.add("code", f.code());
    terms.add("constants", f.constants());
    terms.add("first values of data", f.data());
    terms.add("margin", margin);
    return terms.sentence(capacity, "flash");
  }

  private static String ramSentence(Measured measured, int margin, int capacity) {
    Figures f = measured.figures();
    Terms terms = new Terms();
    terms.add("initialised data", f.data());
    terms.add("other variables", f.zeroed());
    int stack = measured.stack().isBound() ? measured.stack().bytes() : 0;
    boolean set = f.reserved() > stack;
    terms.add(set ? "set aside for heap and stack" : "stack", Math.max(stack, f.reserved()));
    terms.add("margin", margin);
    String sentence = terms.sentence(capacity, "RAM");
    return measured.stack().isBound()
        ? sentence
        : sentence + ", and the stack is not in it: " + measured.stack().why();
  }

  /** A sum that is written out. */
  private static final class Terms {
    private final List<String> words = new ArrayList<>();
    private int sum;

    void add(String name, int bytes) {
      if (bytes != 0) {
        words.add(name + ' ' + bytes + " B");
        sum += bytes;
      }
    }

    String sentence(int capacity, String memory) {
      String total = String.join(" + ", words) + " = " + sum + " B";
      return sum > capacity
          ? total + ", but " + capacity + " B of " + memory
          : total + " of the " + capacity + " B of " + memory;
    }
  }
}
