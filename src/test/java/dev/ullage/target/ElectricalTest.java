package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ElectricalTest {
  @Test
  void everyFamilyWithAPort_isKnown() {
    List<String> unknown =
        Catalogue.load().families().stream()
            .map(Family::name)
            .filter(name -> Electrical.of(name).isEmpty())
            .toList();
    assertEquals(List.of(), unknown, "Add them to electrical.yaml.");
  }

  @Test
  void everyValue_hasItsSource() {
    for (Electrical group : Electrical.read()) {
      Set<String> values = new TreeSet<>(Set.of("pin_ma", "pin_most_ma", "levels", "tolerates"));
      group.allPinsMostMa().ifPresent(ma -> values.add("all_pins_most_ma"));
      group.active().ifPresent(ma -> values.add("active"));
      group.idle().ifPresent(ma -> values.add("idle"));
      group.napMa().ifPresent(ma -> values.add("nap_ma"));
      assertEquals(values, new TreeSet<>(group.sources().keySet()), group.families().toString());
    }
  }

  @Test
  void values_areOfOnePiece() {
    for (Electrical group : Electrical.read()) {
      double most = group.pinMostMa().doubleValue();
      group.pinMa().values().forEach(ma -> assertTrue(ma.doubleValue() <= most));
      double least = group.pinMa().firstKey().doubleValue();
      for (double supply : new double[] {least, 3.3, 5}) {
        assertTrue(group.lowV(supply) < group.highV(supply));
        assertTrue(group.highV(supply) < supply);
      }
    }
  }

  // ATmega48A/PA/88A/PA/168A/PA/328/P, Atmel-8271H, 29.1 absolute maximum ratings (F-104).
  @Test
  void pinLimits_areThoseOfTheDataSheet() {
    Electrical mega = Electrical.of("avr-megax8").orElseThrow();
    assertEquals(40, mega.pinMostMa().intValueExact());
    assertEquals(200, mega.allPinsMostMa().orElseThrow().intValueExact());
    assertEquals(5.5, mega.toleratesV(5), 1e-9);
  }

  // STM32F050 data sheet 023683 Rev 1, tables 13 and 46; DS9773 Rev 4, table 46.
  @Test
  void armPins_areThoseOfTheDataSheet() {
    Electrical stm = Electrical.of("stm32f0").orElseThrow();
    assertEquals(25, stm.pinMostMa().intValueExact());
    assertEquals(80, stm.allPinsMostMa().orElseThrow().intValueExact());
    assertEquals(8, stm.pinMa(3.3), 1e-9);
    assertEquals(0.7 * 3.3, stm.highV(3.3), 1e-9);
  }

  // Data sheets of the makers: STM32G030 DS12991 Rev 3, tables 19, 21, 25, 48 and 50; CH32V003
  // V1.2,
  // tables 3-1, 3-6-2, 3-16 and 3-17; CH32V103 V1.2, tables 3-1 and 3-19; CH32V203 V2.6, tables 4-1
  // and 4-20; SAM D20, table 32-12; RP2040, table 632.
  @ParameterizedTest
  @CsvSource({
    "stm32g0, 3.3, 6, 15, 80, 2.31, 5.5",
    "stm32g0, 2.0, 3, 15, 80, 1.4, 5.5",
    "ch32v003, 5.0, 8, 20, 80, 2.612, 5.5",
    "ch32v103, 3.3, 8, 25, 50, 2.145, 3.6",
    "ch32v203, 2.5, 6, 25, 150, 1.587, 5.5",
    "samd20, 3.3, 2, 10, , 2.31, 3.6",
    "rp2040, 3.3, 4, 12, 50, 2.31, 3.8"
  })
  void pins_areThoseOfTheMakers(
      String family, double supply, double ma, int most, Integer all, double high, double bears) {
    Electrical group = Electrical.of(family).orElseThrow();
    assertEquals(ma, group.pinMa(supply), 1e-9);
    assertEquals(most, group.pinMostMa().intValueExact());
    assertEquals(all, group.allPinsMostMa().map(java.math.BigDecimal::intValueExact).orElse(null));
    assertEquals(high, group.highV(supply), 1e-9);
    assertEquals(bears, group.toleratesV(supply), 1e-9);
  }

  // STM32G030 DS12991 Rev 3, table 25: 2.9 mA at 16 MHz; CH32V003 V1.2, table 3-6-2: 3.24 mA at 8
  // MHz.
  @Test
  void supplyCurrents_areThoseOfTheMakers() {
    Electrical.Taken arm = Electrical.of("stm32g0").orElseThrow().active().orElseThrow();
    assertEquals(2.9, arm.ma(16_000_000, 3.6), 1e-9);
    // STM32F031 data sheet, table 23: 4.1 mA at 8 MHz, and 21.5 mA at 48 MHz: proportion says more.
    Electrical.Taken old = Electrical.of("stm32f0").orElseThrow().active().orElseThrow();
    assertEquals(4.1, old.ma(8_000_000, 3.6), 1e-9);
    assertTrue(old.ma(48_000_000, 3.6) > 21.5);
    Electrical.Taken riscv = Electrical.of("ch32v003").orElseThrow().active().orElseThrow();
    assertEquals(3.24, riscv.ma(8_000_000, 5), 1e-9);
    assertFalse(riscv.most());
  }

  // DS40002061A, table 29-1: 12 mA at 8 MHz and 5 V, 0.55 mA at 1 MHz and 2 V: proportion says
  // more.
  @Test
  void currents_goWithClockAndSupply() {
    Electrical.Taken active = Electrical.of("avr-megax8").orElseThrow().active().orElseThrow();
    assertEquals(12, active.ma(8_000_000, 5), 1e-9);
    assertEquals(0.6, active.ma(1_000_000, 2), 1e-9);
    assertTrue(active.most());
  }

  @Test
  void longestBeginning_counts() {
    assertEquals("avr-tiny", Electrical.of("avr-tinyx5").orElseThrow().families().get(0));
    assertTrue(Electrical.of("avr-mega640").orElseThrow().families().contains("avr-"));
    assertFalse(Electrical.of("unheard-of").isPresent());
  }

  @Test
  void mistakes_areFoundWithTheirPlace() {
    InputException wrong =
        assertThrows(
            InputException.class,
            () -> Electrical.read("electrical.yaml", "groups:\n  - families: x\n    pin_ma: 3\n"));
    assertTrue(wrong.getMessage().contains("electrical.yaml:3"), wrong.getMessage());
  }
}
