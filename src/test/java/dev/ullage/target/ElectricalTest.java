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
      for (double supply : new double[] {1.8, 3.3, 5}) {
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
