package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dividers and pins of LPC800 parts against the formulas and examples of UM10601 Rev. 1.6. */
class LpcDividerTest {
  private static final Catalogue CATALOGUE = Catalogue.load();
  private static final Target LPC812 = target("lpc812m101");

  private static Target target(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  private static BusPlan bus(Target target, long clockHz, int speedHz) {
    var loop = LoopText.loop("  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\n");
    return BusPlan.of(loop, target, clockHz);
  }

  /**
   * UM10601, 16.7.1.1: each half of the clock takes (CLKDIV + 1) * (MSTSCL... + 2) clocks; Table
   * 195: 0 to 7 in each field. Minima: UM10204 Rev. 7, Table 10.
   */
  @ParameterizedTest
  @CsvSource({
    "1000000, 10000, 4700, 4000",
    "1000000, 100000, 4700, 4000",
    "8000000, 100000, 4700, 4000",
    "12000000, 100000, 4700, 4000",
    "12000000, 400000, 1300, 600",
    "15000000, 400000, 1300, 600",
    "30000000, 100000, 4700, 4000",
    "30000000, 400000, 1300, 600"
  })
  void halvesOfTheClock_areAsTheManualSays(long clockHz, int speedHz, int leastLow, int leastHigh) {
    BusPlan plan = bus(LPC812, clockHz, speedHz);
    long divider = plan.constants().get("BUS_DIVIDER");
    long time = plan.constants().get("BUS_TIME");
    long low = divider * ((time & 7) + 2);
    long high = divider * ((time >> 4 & 7) + 2);

    assertEquals(0, time & ~0x77L);
    assertTrue(low * 1_000_000_000 >= leastLow * clockHz, low + " clocks low");
    assertTrue(high * 1_000_000_000 >= leastHigh * clockHz, high + " clocks high");
    assertEquals((double) clockHz / (low + high), plan.hz(), 1e-6);
    assertTrue(plan.hz() <= speedHz, plan.hz() + " Hz");
  }

  /** At 12 MHz the bus is nearly as fast as it may be: within a tenth. */
  @Test
  void speed_isNearWhatIsAskedFor() {
    assertTrue(bus(LPC812, 12_000_000, 100_000).hz() > 90_000);
    assertTrue(bus(LPC812, 12_000_000, 400_000).hz() > 360_000);
  }

  /** 1 MHz has no clock that is low for 1.3 us and makes 400 kHz nearly; slower is what it can. */
  @Test
  void slowClock_keepsTheMinimaOfFastMode() {
    BusPlan plan = bus(LPC812, 1_000_000, 400_000);
    long time = plan.constants().get("BUS_TIME");

    assertTrue(plan.constants().get("BUS_DIVIDER") * ((time & 7) + 2) >= 2);
    assertTrue(plan.hz() <= 250_000);
  }

  /**
   * UM10601, 15.3.1 and 15.7.1: 16 samples of a clock that is divided by 1 + MULT / 256 and BRG +
   * 1. Receivers stand 2 %: common practice, no source.
   */
  @ParameterizedTest
  @CsvSource({
    "12000000, 9600",
    "12000000, 38400",
    "12000000, 115200",
    "8000000, 38400",
    "30000000, 115200",
    "1000000, 38400",
    "1000000, 1200"
  })
  void serialRate_isNear(long clockHz, int baud) {
    Serial serial = Serial.of(LPC812, clockHz, baud);
    long divider = serial.constants().get("SERIAL_DIVIDER");
    long fraction = serial.constants().get("SERIAL_FRACTION");
    double rate = clockHz / (1 + fraction / 256.0) / 16 / divider;

    assertTrue(fraction >= 0 && fraction <= 255, fraction + "");
    assertEquals(baud, rate, baud * 0.004);
    assertEquals(Math.abs(rate / baud - 1), Math.abs(serial.error()), 1e-9);
  }

  /** Any two pins carry the bus of an LPC81x; an LPC82x has it on two of its own. */
  @Test
  void pins_areTheUsersWhereTheMatrixLeadsThere() {
    String pins = "board: {pins: {sda: PIO0_7, scl: PIO0_16, lamp: PIO0_10}}\n";
    String rest = "alarm: {threshold: 1}\noutputs: {lamp: {}}\nbus_driver: polled\n" + pins;
    var loop = LoopText.loop("", rest);
    Firmware plan = plan(loop, LPC812);

    assertEquals(
        Map.of(Role.SDA, "PIO0_7", Role.SCL, "PIO0_16", Role.LAMP, "PIO0_10"),
        Map.of(
            Role.SDA, plan.pins().get(Role.SDA).name(),
            Role.SCL, plan.pins().get(Role.SCL).name(),
            Role.LAMP, plan.pins().get(Role.LAMP).name()));
    assertInstanceOf(Plan.Impossible.class, Plan.of(loop, target("lpc824m201")));
  }

  @Test
  void pinsThatCanOnlyPullLow_areTheBusFirst() {
    var loop = LoopText.loop("", "alarm: {threshold: 1}\noutputs: {lamp: {}}\n");
    Firmware plan = plan(loop, LPC812);

    assertEquals("PIO0_11", plan.pins().get(Role.SDA).name());
    assertEquals("PIO0_10", plan.pins().get(Role.SCL).name());
    assertEquals("PIO0_4", plan(loop, target("lpc810m021")).pins().get(Role.SDA).name());
  }

  private static Firmware plan(Loop loop, Target target) {
    return assertInstanceOf(Plan.Possible.class, Plan.of(loop, target)).firmware();
  }
}
