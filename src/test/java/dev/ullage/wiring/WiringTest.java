package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Board.Role;
import dev.ullage.wiring.Remark.Weight;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The bus of a whole board: its time, levels and addresses. */
class WiringTest {
  // UM10204 Rev. 7.0, sections 3.1.5 and 3.1.10: address, register, address, two bytes are 45
  // clocks, 450 us at 100 kHz without START and STOP (F-019, F-020).
  @Test
  void transaction_hasNineClocksForEachByte() {
    Transaction time =
        Boards.thermometer("atmega328p", "supply_v: 5, clock_hz: 8000000").transaction();
    assertEquals(5, time.wire().bytes());
    assertEquals(45, time.wire().byteClocks());
    assertEquals(3, time.wire().conditions());
    assertEquals(100_000, time.hz(), 1e-6);
    assertEquals(0.450 + 0.030, time.ms(), 1e-9);
  }

  @Test
  void stretchedBytes_areCounted() {
    Transaction time =
        Boards.thermometer("atmega328p", "supply_v: 5, clock_hz: 8000000, stretch_us: 400")
            .transaction();
    assertEquals(5 * 0.4, time.stretchMs(), 1e-9);
    assertEquals(0.480 + 2.0, time.ms(), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({"400, GOOD", "1200, HIGH", "4000, TOO_LONG"})
  void longReadings_areRemarkedOn(int stretchUs, Transaction.Verdict verdict) {
    Wiring wiring =
        Boards.wiring(
            "atmega328p",
            """
            loop: test
            period_ms: 10
            sensor: {address: 0x48, ask: [0x00], frame: {sample_bytes: 2}}
            alarm: {threshold: 30}
            board: {supply_v: 5, clock_hz: 8000000, stretch_us: %d}
            """
                .formatted(stretchUs));
    assertEquals(verdict, wiring.transaction().verdict());
    assertEquals(
        verdict == Transaction.Verdict.TOO_LONG,
        Boards.says(wiring, Weight.FAULT, "of the period"));
    assertEquals(
        verdict == Transaction.Verdict.HIGH, Boards.says(wiring, Weight.WARNING, "of the period"));
  }

  // ST RM0360 Rev 5, sections 22.4.12 and 22.4.13 (F-152).
  @ParameterizedTest
  @CsvSource({"0x08, host", "0x0C, alert", "0x61, default"})
  void smbusAddresses_areNoted(String address, String use) {
    Wiring wiring =
        Boards.wiring(
            "attiny85", "loop: test\nsensor: {address: " + address + "}\nalarm: {threshold: 1}\n");
    assertTrue(Boards.says(wiring, Weight.NOTE, use));
  }

  // UM10204 Rev. 7.0, I/O stages: VIH is 0.7 VDD at least (F-018): 3.3 V is high for 3.3 V parts
  // and too low for a part at 5 V (3.5 V).
  @Test
  void mixedSupplies_needALevelShifter() {
    Wiring mixed = Boards.thermometer("atmega328p", "supply_v: 5, sensor_v: 3.3");
    assertTrue(mixed.levels().needsShifter());
    assertEquals(3.3, mixed.levels().busV(), 1e-9);
    assertEquals(3.5, mixed.levels().partReadsHighV(), 1e-9);
    assertTrue(Boards.says(mixed, Weight.FAULT, "shift the levels"));
    assertEquals("level shifter of the clock, and 4.7 kohm to 5 V", leadsTo(mixed, Role.SCL));
    assertTrue(mixed.parts().stream().anyMatch(item -> item.what().equals("N-channel MOSFET")));
    Wiring same = Boards.thermometer("atmega328p", "supply_v: 3.3");
    assertFalse(same.levels().needsShifter());
    Wiring near = Boards.thermometer("atmega328p", "supply_v: 3.3, sensor_v: 2.8");
    assertFalse(near.levels().needsShifter());
    assertTrue(Boards.says(near, Weight.NOTE, "pull the bus lines up to 2.8 V"));
  }

  // nRF51 pins bear 0.3 V above the supply (from memory of its product specification).
  @Test
  void higherPullUpsOfTheSensor_areWarnedOf() {
    Wiring high = Boards.thermometer("nrf51822_xxaa", "supply_v: 3.0, sensor_v: 3.6");
    assertTrue(Boards.says(high, Weight.WARNING, "may lead them to its 3.6 V"));
    Wiring tolerant = Boards.thermometer("stm32g030f6", "supply_v: 3.0, sensor_v: 3.6");
    assertFalse(Boards.says(tolerant, Weight.WARNING, "may lead them"));
  }

  // Atmel ATmega48/88/168 2545D, table 84: 9600 baud at 8 MHz, U2X = 1: UBRR 103, 0.2 % (F-070);
  // Atmel-8271H, section 24.4: 50 to 200 kHz for full resolution; 8 MHz / 64 is 125 kHz (F-074);
  // Microchip online docs, "Bit Rate Generator": 8 MHz, 100 kHz: TWBR 32 (F-060).
  @Test
  void dividers_areThoseOfTheDataSheet() {
    Wiring wiring =
        Boards.wiring(
            "atmega328p",
            """
            loop: test
            sensor: {address: 0x48, speed_hz: 100000}
            alarm: {knob: {from: 2, to: 12}}
            extras: {report: {baud: 9600}}
            board: {supply_v: 5, clock_hz: 8000000}
            """);
    Divider serial = divider(wiring, "serial line");
    assertEquals(0.0016, serial.error(), 0.0001);
    assertEquals("SERIAL_DIVIDER 103", serial.how());
    assertEquals("125 kHz", divider(wiring, "converter").real());
    assertEquals("100 kHz", divider(wiring, "two-wire bus").real());
    assertTrue(divider(wiring, "two-wire bus").how().contains("BUS_BIT_RATE 32"));
  }

  private static String leadsTo(Wiring wiring, Role role) {
    return wiring.pins().pins().stream()
        .filter(pin -> pin.role().filter(role::equals).isPresent())
        .findFirst()
        .orElseThrow()
        .leadsTo();
  }

  private static Divider divider(Wiring wiring, String what) {
    return wiring.dividers().stream().filter(d -> d.what().equals(what)).findFirst().orElseThrow();
  }

  @Test
  void pinsThatTheLoopNames_areRemarkedOn() {
    Wiring reset = Boards.thermometer("attiny85", "pins: {lamp: PB5}");
    assertTrue(Boards.says(reset, Weight.WARNING, "PB5, which the loop file gives to lamp"));
    Wiring plain = Boards.thermometer("attiny85", "pins: {lamp: PB3}");
    assertFalse(Boards.says(plain, Weight.WARNING, "PB3"));
  }

  @Test
  void wrongPullUps_areAFaultWithACure() {
    Wiring wiring = Boards.thermometer("attiny85", "supply_v: 5, pull_up_ohm: 100000");
    assertTrue(Boards.says(wiring, Weight.FAULT, "take 11 kohm"));
    assertEquals("data of the sensor, and 11 kohm to 5 V", leadsTo(wiring, Role.SDA));
    assertTrue(
        wiring.parts().stream()
            .anyMatch(item -> item.value().equals("11 kohm") && item.quantity() == 2));
  }

  // UM10204 Rev. 7.0, bus-line table: 400 pF is the most (F-009).
  @Test
  void longLines_areWarnedOf() {
    Wiring wiring =
        Boards.thermometer("attiny85", "supply_v: 5, bus_capacitance_pf: 450, pull_up_ohm: 2000");
    assertTrue(Boards.says(wiring, Weight.WARNING, "400 pF"));
  }
}
