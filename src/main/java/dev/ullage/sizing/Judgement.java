package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import dev.ullage.loop.Bring;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.Estimate.Part;
import dev.ullage.sizing.Headroom.Need;
import dev.ullage.sizing.Verdict.Kind;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Holds an estimate against a target and says in bytes what decides. */
final class Judgement {
  private static final String FLASH = "flash";
  private static final String RAM = "ram";
  private static final String BUS = "bus_";
  private static final int NAMED_PARTS = 3;

  private final Target target;
  private final Estimate estimate;
  private final Bring bring;
  private final String driver;
  private final Need need;

  Judgement(Target target, Estimate estimate, Bring bring, Margin margin, String driver) {
    this.target = target;
    this.estimate = estimate;
    this.bring = bring;
    this.driver = driver;
    this.need = Need.of(target, estimate, bring, margin);
  }

  Verdict verdict() {
    if (estimate.grade() == Estimate.Grade.LISTED) {
      return new Verdict(
          Kind.TIGHT,
          FLASH,
          "nothing was measured for "
              + target.core()
              + ", so all that is known are its limits: "
              + target.flashBytes()
              + " B of flash and "
              + target.ramBytes()
              + " B of RAM");
    }
    boolean flashOver = need.flashLow() > target.flashBytes();
    boolean ramOver = need.ram() > target.ramBytes();
    if (flashOver || ramOver) {
      return verdict(Kind.OVER, flashOver, ramOver);
    }
    boolean flashTight = need.flashHigh() + need.flashMargin() > target.flashBytes();
    boolean ramTight = need.ram() + need.ramMargin() > target.ramBytes();
    return flashTight || ramTight
        ? verdict(Kind.TIGHT, flashTight, ramTight)
        : verdict(Kind.FITS, true, true);
  }

  /** Where both resources count, the one of which a smaller share is left decides. */
  private Verdict verdict(Kind kind, boolean flash, boolean ram) {
    boolean ramDecides = ram && (!flash || ramLeft() <= flashLeft());
    return ramDecides
        ? new Verdict(kind, RAM, ramSentence())
        : new Verdict(kind, FLASH, flashSentence());
  }

  private double flashLeft() {
    return share(target.flashBytes() - need.flash() - need.flashMargin(), target.flashBytes());
  }

  private double ramLeft() {
    return share(target.ramBytes() - need.ram() - need.ramMargin(), target.ramBytes());
  }

  private static double share(int left, int capacity) {
    return capacity == 0 ? left : (double) left / capacity;
  }

  private String ramSentence() {
    Terms terms = new Terms();
    int named = 0;
    for (Part part : estimate.modules()) {
      if (part.name().startsWith(BUS)) {
        terms.add(driver + " bus driver", part.ram());
        named += part.ram();
      }
    }
    for (Buffer buffer : estimate.buffers()) {
      if (!buffer.module().startsWith(BUS)) {
        terms.add(buffer.name(), buffer.bytes());
        named += buffer.bytes();
      }
    }
    terms.add(named == 0 ? "state" : "other state", estimate.staticRam() - named);
    terms.add("stack", estimate.stack());
    terms.add("your own code", bring.ramBytes() + bring.stackBytes());
    terms.add("margin", need.ramMargin());
    return terms.sentence(target.ramBytes(), "RAM", "");
  }

  private String flashSentence() {
    Terms terms = new Terms();
    List<Part> parts =
        estimate.modules().stream()
            .sorted(Comparator.comparingInt(Part::flash).reversed().thenComparing(Part::name))
            .toList();
    int rest = 0;
    for (int i = 0; i < parts.size(); i++) {
      if (i < NAMED_PARTS) {
        terms.add(shown(parts.get(i)), parts.get(i).flash());
      } else {
        rest += parts.get(i).flash();
      }
    }
    terms.add("the rest", rest);
    terms.add("your own code", bring.flashBytes());
    terms.add("margin", need.flashMargin());
    int low = need.flashLow() + need.flashMargin();
    int high = need.flashHigh() + need.flashMargin();
    return terms.sentence(target.flashBytes(), FLASH, " (" + low + " to " + high + ")");
  }

  private String shown(Part part) {
    return part.name().startsWith(BUS) ? driver + " bus driver" : part.name();
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

    String sentence(int capacity, String memory, String range) {
      String total = String.join(" + ", words) + " = " + sum + " B" + range;
      return sum > capacity
          ? total + ", but " + capacity + " B of " + memory
          : total + " of the " + capacity + " B of " + memory;
    }
  }
}
