package dev.ullage.loop;

import dev.ullage.input.Findings;
import java.math.BigDecimal;

/** A loop under judgement: what it says, where it says so, and what was found wrong so far. */
final class Judge {
  final Loop loop;
  private final Draft draft;
  private final Findings findings;

  Judge(Loop loop, Draft draft, Findings findings) {
    this.loop = loop;
    this.draft = draft;
    this.findings = findings;
  }

  /** True if none of these keys was found wrong, so that a rule may conclude from them. */
  boolean trusts(String... keys) {
    for (String key : keys) {
      if (findings.concern(key)) {
        return false;
      }
    }
    return true;
  }

  /** True if the file gives the key. */
  boolean given(String key) {
    return draft.has(key) && draft.writes(key);
  }

  void report(String key, String found, String expected) {
    Draft.Place place = draft.placeOf(key);
    findings.add(place.line(), place.column(), key, found, expected);
  }

  void report(String key, String found, String expected, String cure) {
    Draft.Place place = draft.placeOf(key);
    findings.add(place.line(), place.column(), key, found, expected, cure);
  }

  /** A value with its unit: that of the scale, or per cent where a share is judged. */
  String judged(BigDecimal value) {
    return loop.average().frame() == Average.OfFrame.SHARE_ABOVE
        ? value.toPlainString() + " %"
        : sampled(value);
  }

  /** A value in the unit of the scale. */
  String sampled(BigDecimal value) {
    return value.toPlainString() + " " + loop.sensor().scale().unit();
  }
}
