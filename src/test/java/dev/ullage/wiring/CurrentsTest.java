package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Board.Role;
import org.junit.jupiter.api.Test;

/** Resistors, transistors, supplies and batteries. */
class CurrentsTest {
  // thinkcalculator, "LED Series Resistor Calculator", example: 5 V, 2 V, 20 mA: 150 ohm (F-102).
  @Test
  void lampResistor_isThatOfTheExample() {
    Resistor resistor = Resistor.inSeries(5, 2, 20);
    assertEquals(150, resistor.exactOhm(), 1e-9);
    assertEquals(150, resistor.ohm(), 1e-9);
    assertEquals(20, resistor.ma(), 1e-9);
    assertEquals(60, resistor.mw(), 1e-9);
  }

  // The same formula, and the next value of IEC 60063 (F-103).
  @Test
  void lampResistor_isRoundedUp() {
    Resistor resistor = Resistor.inSeries(3.3, 2.0, 5);
    assertEquals(260, resistor.exactOhm(), 1e-9);
    assertEquals(270, resistor.ohm(), 1e-9);
    assertEquals(4.81, resistor.ma(), 0.01);
    assertThrows(IllegalArgumentException.class, () -> Resistor.inSeries(3, 3.2, 5));
  }

  @Test
  void lamp_aboveTheSupply_isAFault() {
    Wiring wiring = Boards.thermometer("attiny85", "supply_v: 3, lamp_v: 3.2");
    assertTrue(wiring.currents().lamp().isEmpty());
    assertTrue(Boards.says(wiring, Remark.Weight.FAULT, "the lamp needs 3.2 V"));
    assertFalse(wiring.works());
  }

  // ATtiny261A/461A/861A 8197C, table 19-1: levels are given to 10 mA at 5 V and 5 mA at 3 V.
  @Test
  void outputs_thatTakeMoreThanAPinGives_getATransistor() {
    Wiring little = Boards.thermometer("attiny85", "supply_v: 5, lamp_ma: 9");
    assertFalse(little.currents().drives().get(0).transistor());
    Wiring much = Boards.thermometer("attiny85", "supply_v: 5, lamp_ma: 25");
    OutputDrive drive = much.currents().drives().get(0);
    assertEquals(Role.LAMP, drive.role());
    assertTrue(drive.transistor());
    assertTrue(drive.pinMa(5) >= drive.ma() / 20, "the base gets a twentieth at least");
    assertTrue(drive.pinMa(5) < 10, "and the pin bears that");
  }

  /** nRF51 pins give 0.5 mA: 2.9 V / 0.5 mA is 5800 ohm, and a gain of 50 makes 25 mA of that. */
  @Test
  void weakPins_areNotAskedForMoreThanTheyGive() {
    OutputDrive little = OutputDrive.through(Role.SOUNDER, 15, true, 3.6, 0.5);
    assertEquals(6200, little.baseOhm(), 1e-9);
    assertTrue(little.pinMa(3.6) <= 0.5);
    assertFalse(little.starves(3.6));
    Wiring much = Boards.thermometer("nrf51822_xxaa", "supply_v: 3.6, lamp_ma: 40");
    assertTrue(Boards.says(much, Remark.Weight.WARNING, "take a MOSFET that opens at 3.6 V"));
  }

  /** An NPN transistor would turn the level round. */
  @Test
  void outputThatIsOnWhenLow_getsAPnpTransistor() {
    String loop =
        """
        loop: test
        sensor: {address: 0x48}
        alarm: {threshold: 30}
        outputs: {relay: {active: %s}}
        board: {supply_v: 5}
        """;
    for (String[] each : new String[][] {{"high", "NPN"}, {"low", "PNP"}}) {
      Wiring wiring = Boards.wiring("attiny85", loop.formatted(each[0]));
      assertEquals(each[1], wiring.currents().drives().get(0).kind());
      assertTrue(
          wiring.parts().stream().anyMatch(item -> item.what().equals(each[1] + " transistor")));
    }
  }

  /**
   * By Ohm's law from the supply of 5 V and 2 V at the lamp; 15 mA need 0.75 mA of base current.
   */
  @Test
  void pinsOfOutputs_leadToTheResistorThatIsBought() {
    Wiring wiring =
        Boards.wiring(
            "attiny85",
            """
            loop: test
            sensor: {address: 0x48}
            alarm: {threshold: 30}
            outputs: {lamp: {}, sounder: {tone_hz: 2700}}
            board: {supply_v: 5, lamp_ma: 5, sounder_ma: 15}
            """);
    assertEquals("lamp through 620 ohm, to ground", leadsTo(wiring, Role.LAMP)); // of 600 ohm
    assertEquals(
        "5.6 kohm to the base of the transistor of the sounder", // of 4.3 V / 0.75 mA = 5733 ohm
        leadsTo(wiring, Role.SOUNDER));
    for (String ohm : new String[] {"620 ohm", "5.6 kohm"}) {
      assertTrue(wiring.parts().stream().anyMatch(item -> item.value().equals(ohm)), ohm);
    }
  }

  private static String leadsTo(Wiring wiring, Role role) {
    return wiring.pins().pins().stream()
        .filter(pin -> pin.role().filter(role::equals).isPresent())
        .findFirst()
        .orElseThrow()
        .leadsTo();
  }

  /** Counted on the pinouts: VCC and AVCC of ATmega328P; VDDIO, VDDANA and VDDCORE of SAM D20. */
  @Test
  void capacitors_areAsManyAsThePinsThatNeedThem() {
    assertEquals(2, capacitors(Boards.thermometer("atmega328p", "supply_v: 5"), "100 nF"));
    Wiring sam = Boards.thermometer("samd20e15a", "supply_v: 3.3");
    assertEquals(1, capacitors(sam, "1 uF"));
  }

  private static int capacitors(Wiring wiring, String value) {
    return wiring.parts().stream()
        .filter(item -> item.what().equals("ceramic capacitor") && item.value().equals(value))
        .mapToInt(PartsList.Item::quantity)
        .sum();
  }

  // USB 2.0 specification, section 7.2.2: 4.40 V at least; a part for 3.6 V needs a regulator.
  @Test
  void usbPort_needsARegulatorForALowSupply() {
    for (String[] each : new String[][] {{"5", "false"}, {"3.3", "true"}}) {
      Wiring wiring = Boards.thermometer("attiny85", "supply: usb, supply_v: " + each[0]);
      assertEquals(
          each[1],
          "" + wiring.parts().stream().anyMatch(item -> item.what().equals("voltage regulator")));
    }
  }

  // USB 2.0 specification, section 7.2.1: one unit load is 100 mA (F-105).
  @Test
  void usbPort_givesOneUnitLoad() {
    String relay =
        """
        loop: test
        sensor: {address: 0x48}
        alarm: {threshold: 30}
        outputs: {relay: {}}
        board: {supply_v: 5, supply: usb, relay_ma: %d}
        """;
    assertTrue(Boards.wiring("attiny85", relay.formatted(70)).works());
    Wiring more = Boards.wiring("attiny85", relay.formatted(110));
    assertTrue(Boards.says(more, Remark.Weight.FAULT, "a USB port gives 100 mA"));
  }

  // A CR2032 of a maker's summary: 3 mA for long, 15 mA for a moment (F-109).
  @Test
  void coinCell_givesLittle() {
    Wiring lamp = Boards.thermometer("attiny85", "supply_v: 3, supply: coin_cell");
    assertTrue(Boards.says(lamp, Remark.Weight.WARNING, "more than a coin cell gives for long"));
    Wiring unsaid = Boards.thermometer("attiny85", "supply: coin_cell");
    assertTrue(Boards.says(unsaid, Remark.Weight.WARNING, "a coin cell gives 3 V"));
    assertFalse(Boards.says(lamp, Remark.Weight.WARNING, "a coin cell gives 3 V"));
    Wiring bright = Boards.thermometer("attiny85", "supply_v: 3, supply: coin_cell, lamp_ma: 20");
    assertTrue(Boards.says(bright, Remark.Weight.FAULT, "coin cell gives 15 mA for a moment"));
  }

  // 225 mAh at 15 uA: 15000 h, 625 days (F-107; GNU units says the same).
  @Test
  void battery_lastsItsChargeOverTheCurrent() {
    Currents.Battery battery = new Currents.Battery(225, 0.015);
    assertEquals(15_000, battery.hours(), 1e-6);
    assertEquals("625 days", Figures.hours(battery.hours()));
  }

  @Test
  void battery_lastsLongerAsleep() {
    String loop =
        """
        loop: test
        period_ms: 2000
        sensor: {address: 0x48}
        alarm: {threshold: 30}
        extras: {sleep: %s}
        board: {supply_v: 3, supply: battery, battery_mah: 1200, sensor_ma: 0.05}
        """;
    double awake = hours(loop.formatted("none"));
    double idle = hours(loop.formatted("idle"));
    double deep = hours(loop.formatted("deep"));
    assertTrue(awake < idle && idle < deep, awake + " " + idle + " " + deep);
  }

  // DS40002061A, table 29-1: 12 mA at work and 5.5 mA in idle sleep at 8 MHz and 5 V. A reading of
  // 3 bytes takes 29 clocks of 100 kHz, 0.29 ms of each 29 ms: 1 % at work, 99 % asleep.
  @Test
  void averageCurrent_isThatOfTheShares() {
    Wiring wiring =
        Boards.wiring(
            "atmega328p",
            """
            loop: test
            period_ms: 29
            sensor: {address: 0x48, ask: [], frame: {sample_bytes: 2}}
            alarm: {threshold: 30}
            extras: {sleep: idle}
            board: {supply_v: 5, clock_hz: 8000000}
            """);
    assertEquals(0.01, wiring.transaction().share(), 1e-9);
    assertEquals(0.01 * 12 + 0.99 * 5.5, wiring.currents().takers().get(0).restMa(), 1e-9);
    assertEquals(12, wiring.currents().takers().get(0).alarmMa(), 1e-9);
  }

  private static double hours(String loop) {
    return Boards.wiring("attiny85", loop).currents().battery().orElseThrow().hours();
  }

  @Test
  void takers_addUp() {
    Currents currents = Boards.thermometer("atmega328p", "supply_v: 5").currents();
    assertEquals(
        currents.takers().stream().mapToDouble(Currents.Taker::alarmMa).sum(),
        currents.alarmMa(),
        1e-9);
    assertTrue(currents.restMa() < currents.alarmMa());
  }
}
