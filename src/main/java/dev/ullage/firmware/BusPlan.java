package dev.ullage.firmware;

import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Loop;
import dev.ullage.target.BusPort;
import dev.ullage.target.Target;

/**
 * How the bus is driven, and how fast it really is.
 *
 * @param driver never {@code AUTO}
 * @param why one sentence: why this driver
 * @param halfBitLoops turns of the delay loop in half a bit, where the program moves the pins: 0
 *     for none. With hardware the program does so only to free a bus that is held
 * @param bitRate hardware: the bit rate register
 * @param hz the fastest clock that comes out
 * @param byteMs what the program takes between two bytes
 */
public record BusPlan(
    BusDriver driver, String why, int halfBitLoops, int bitRate, double hz, double byteMs) {

  // Bus timing of the I2C-bus specification UM10204 Rev. 7, "Characteristics of the SDA and SCL bus
  // lines", Standard-mode up to 100 kHz, then Fast-mode. The clock's high time, the hold of START
  // and the set-up of STOP have the same least time.
  private static final Timing STANDARD = new Timing(4.7, 4.0, 4.7);
  private static final Timing FAST = new Timing(1.3, 0.6, 0.6);
  private static final int STANDARD_HZ = 100_000;

  // Clock cycles that the bit-banged driver's own instructions take at least, seen in simulation on
  // the parts with the shortest calls. First where there is no half-bit delay, then beside one.
  private static final Own UNDELAYED = new Own(27, 9, 12, 37);
  private static final Own DELAYED = new Own(31, 2, 11, 40);
  // And what it takes from byte to byte, with what the program does with a byte.
  private static final int BYTE_CYCLES = 120;
  private static final int LOOP_CYCLES = 3;
  private static final int CALL_CYCLES = 7;
  private static final int LONG_LOOP_CYCLES = 4;
  private static final int SHORT_LOOPS = 255;

  // The hardware's half of a bit: eight cycles and the bit rate register. Its low half is two
  // cycles
  // short of that, so that 8 MHz keep the low time of Fast-mode up to 308 kHz only: ATmega48/88/168
  // data sheet 7530K, "2-wire Serial Bus Requirements", notes 6 and 7.
  private static final int LEAST_HALF_CYCLES = 8;
  private static final int SHORT_OF_LOW = 2;

  /** Least times in microseconds: clock low, clock high, set-up of a repeated START. */
  private record Timing(double lowUs, double highUs, double startUs) {}

  /** Cycles in the same times, and in a whole bit. */
  private record Own(int low, int high, int start, int bit) {

    /** Cycles that each half of a bit lacks. */
    double lacks(Timing timing, double cyclesPerUs, double bitCycles) {
      double halves =
          Math.max(
              timing.lowUs * cyclesPerUs - low,
              Math.max(timing.highUs * cyclesPerUs - high, timing.startUs * cyclesPerUs - start));
      return Math.max(halves, (bitCycles - bit) / 2);
    }
  }

  static BusPlan of(Loop loop, Target target, long clockHz) {
    boolean hardware = target.family().busPort().kind() == BusPort.Kind.CONTROLLER;
    BusDriver wanted = loop.busDriver();
    if (!hardware && (wanted == BusDriver.POLLED || wanted == BusDriver.BUFFERED)) {
      throw new Lacking("peripheral", without(target.family().busPort().kind()));
    }
    int speedHz = loop.sensor().speedHz();
    return switch (wanted) {
      case AUTO ->
          hardware
              ? hardware(BusDriver.POLLED, "the part has a two-wire controller", speedHz, clockHz)
              : bitBanged(
                  without(target.family().busPort().kind()) + ", so the program moves the pins",
                  speedHz,
                  clockHz);
      case BITBANG -> bitBanged("the loop file asks for it", speedHz, clockHz);
      case POLLED, BUFFERED -> hardware(wanted, "the loop file asks for it", speedHz, clockHz);
    };
  }

  private static String without(BusPort.Kind kind) {
    return switch (kind) {
      case NONE -> "the part has no two-wire hardware";
      case USI -> "the part's serial interface (USI) leaves the clock to the program";
      case TARGET_ONLY -> "the part's two-wire hardware can only be addressed by others";
      case TARGET_ONLY_AND_USI ->
          "the part's two-wire hardware can only be addressed by others,"
              + " and its serial interface (USI) leaves the clock to the program";
      case CONTROLLER, SHARED -> "the part has a two-wire controller";
    };
  }

  private static BusPlan bitBanged(String why, int speedHz, long clockHz) {
    Timing timing = timing(speedHz);
    double bitCycles = (double) clockHz / speedHz;
    double byteMs = BYTE_CYCLES * 1000.0 / clockHz;
    if (UNDELAYED.lacks(timing, clockHz / 1e6, bitCycles) <= 0) {
      double hz = (double) clockHz / UNDELAYED.bit;
      return new BusPlan(BusDriver.BITBANG, why, 0, 0, hz, byteMs);
    }
    double half = DELAYED.lacks(timing, clockHz / 1e6, bitCycles);
    int loops = Math.max(1, (int) Math.ceil((half - CALL_CYCLES) / LOOP_CYCLES));
    int cycles = CALL_CYCLES + LOOP_CYCLES * loops;
    if (loops > SHORT_LOOPS) {
      loops = (int) Math.ceil((half - CALL_CYCLES) / LONG_LOOP_CYCLES);
      cycles = CALL_CYCLES + LONG_LOOP_CYCLES * loops;
    }
    double hz = (double) clockHz / (DELAYED.bit + 2 * cycles);
    return new BusPlan(BusDriver.BITBANG, why, loops, 0, hz, byteMs);
  }

  private static Timing timing(int speedHz) {
    return speedHz <= STANDARD_HZ ? STANDARD : FAST;
  }

  private static BusPlan hardware(BusDriver driver, String why, int speedHz, long clockHz) {
    // SCL = clock / (16 + 2 * TWBR * 4^TWPS): data sheets, "Bit Rate Generator Unit".
    double halfCycles =
        Math.max(clockHz / (2.0 * speedHz), timing(speedHz).lowUs * clockHz / 1e6 + SHORT_OF_LOW);
    long rate = Math.max(0, (long) Math.ceil(halfCycles - LEAST_HALF_CYCLES));
    if (rate > 255) {
      throw new Lacking(
          "clock",
          "the bit rate register cannot bring "
              + Clocking.megahertz(clockHz)
              + " down to "
              + speedHz
              + " Hz");
    }
    int freeing = (int) Math.ceil(STANDARD.lowUs * clockHz / 1e6 / LOOP_CYCLES);
    return new BusPlan(
        driver,
        why,
        Math.max(1, Math.min(SHORT_LOOPS, freeing)),
        (int) rate,
        clockHz / (2.0 * (LEAST_HALF_CYCLES + rate)),
        0);
  }

  /**
   * Milliseconds of a transaction of so many bytes: nine clocks each and what is between them, and
   * START and STOP.
   */
  double ms(int bytes) {
    return (9.0 * bytes + 3) * 1000 / hz + bytes * byteMs;
  }

  /** How long the half-bit delay is: none, a loop of 8 bits, or one of 16. */
  String delayTrait() {
    return halfBitLoops == 0 ? "none" : halfBitLoops <= SHORT_LOOPS ? "short" : "long";
  }
}
