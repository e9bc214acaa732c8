package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Margin;
import dev.ullage.sizing.Verdict.Kind;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FitTest {
  private static final Margin MARGIN = new Margin(5, 16);

  /** 20 + 900 + 30 + 4 = 954 bytes of flash, 4 + 33 = 37 of RAM, 50 of EEPROM. */
  private static Measured measured(int reserved, Stack stack) {
    return new Measured(
        "a.elf",
        Optional.of("avr25"),
        Optional.empty(),
        new Figures(20, 900, 30, 4, 33, reserved, 50, true),
        stack,
        List.of(),
        List.of(),
        Map.of(),
        Capacity.UNKNOWN,
        List.of());
  }

  private static Fit fit(int flash, int ram, int eeprom) {
    return Fit.of(measured(0, Stack.bound(11, List.of())), flash, ram, eeprom, MARGIN);
  }

  @Test
  void marginsAndAll_fit() {
    Fit fit = fit(1024, 64, 50);
    assertEquals(Kind.FITS, fit.verdict().kind());
    assertEquals(1024 - 954 - 52, fit.flashLeft());
    assertEquals(64 - 48 - 16, fit.ramLeft());
  }

  @Test
  void marginTooMuch_isTight() {
    assertEquals(Kind.TIGHT, fit(1000, 64, 50).verdict().kind());
    assertEquals(Kind.TIGHT, fit(1024, 63, 50).verdict().kind());
  }

  @Test
  void tooMuch_saysWhatItAddsUpTo() {
    Fit fit = fit(953, 64, 50);
    assertEquals(Kind.OVER, fit.verdict().kind());
    assertEquals(
        "vectors 20 B + code 900 B + constants 30 B + first values of data 4 B + margin 48 B"
            + " = 1002 B, but 953 B of flash",
        fit.verdict().reason());
    assertEquals(Kind.OVER, fit(1024, 47, 50).verdict().kind());
  }

  @Test
  void missingEeprom_isALack() {
    Fit fit = fit(1024, 64, 49);
    assertEquals(Kind.LACKS, fit.verdict().kind());
    assertEquals("50 B of EEPROM are used, but the part has 49 B", fit.verdict().reason());
  }

  @Test
  void stackWithoutABound_isNeverCertain() {
    Fit fit = Fit.of(measured(0, Stack.unbounded("f calls itself")), 8192, 512, 512, MARGIN);
    assertEquals(Kind.TIGHT, fit.verdict().kind());
    Fit small = Fit.of(measured(0, Stack.unbounded("f calls itself")), 8192, 60, 512, MARGIN);
    assertTrue(small.verdict().reason().endsWith("not in it: f calls itself"), small.toString());
  }

  @Test
  void ramSetAside_holdsTheStack() {
    assertEquals(37 + 24, Fit.ram(measured(24, Stack.bound(11, List.of()))));
    assertEquals(37 + 31, Fit.ram(measured(24, Stack.bound(31, List.of()))));
  }
}
