package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.wiring.Remark.Weight;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The bus of a whole board: its time, levels and addresses. */
class WiringTest {
  // UM10204 Rev. 7.0, sections 3.1.5 and 3.1.10: address, register, address, two bytes are 45
  // clocks,
  // 450 us at 100 kHz without START and STOP (F-019, F-020).
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
  // and
  // too low for a part at 5 V (3.5 V).
  @Test
  void mixedSupplies_needALevelShifter() {
    Wiring mixed = Boards.thermometer("atmega328p", "supply_v: 5, sensor_v: 3.3");
    assertTrue(mixed.levels().needsShifter());
    assertEquals(3.3, mixed.levels().busV(), 1e-9);
    assertEquals(3.5, mixed.levels().partReadsHighV(), 1e-9);
    assertTrue(Boards.says(mixed, Weight.FAULT, "shift the levels"));
    assertTrue(mixed.parts().stream().anyMatch(item -> item.what().equals("N-channel MOSFET")));
    Wiring same = Boards.thermometer("atmega328p", "supply_v: 3.3");
    assertFalse(same.levels().needsShifter());
    Wiring near = Boards.thermometer("atmega328p", "supply_v: 3.3, sensor_v: 2.8");
    assertFalse(near.levels().needsShifter());
    assertTrue(Boards.says(near, Weight.NOTE, "pull the bus lines up to 2.8 V"));
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
