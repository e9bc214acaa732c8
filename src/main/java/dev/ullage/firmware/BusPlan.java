package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Loop;
import dev.ullage.target.BusPort;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * How the bus is driven, and how fast it really is.
 *
 * @param driver never {@code AUTO}
 * @param why one sentence: why this driver
 * @param constants timing words of the driver, for {@code config.h}
 * @param delay where the program moves the pins: how it waits for half a bit
 * @param hz the fastest clock that comes out
 * @param byteMs what the program takes between two bytes
 */
public record BusPlan(
    BusDriver driver,
    String why,
    Map<String, Long> constants,
    Delay delay,
    double hz,
    double byteMs) {

  // Bus timing of the I2C-bus specification UM10204 Rev. 7, "Characteristics of the SDA and SCL bus
  // lines", Standard-mode up to 100 kHz, then Fast-mode. The clock's high time, the hold of START
  // and the set-up of STOP have the same least time.
  private static final Timing STANDARD = new Timing("4.7", "4.0", "4.7");
  private static final Timing FAST = new Timing("1.3", "0.6", "0.6");
  private static final int STANDARD_HZ = 100_000;

  public BusPlan {
    constants = Collections.unmodifiableMap(new LinkedHashMap<>(constants));
  }

  /** How long the half-bit delay is. */
  public enum Delay {
    /** The instructions around it are slow enough. */
    NONE,
    /** A loop that counts 8 bits. */
    SHORT,
    /** A loop that counts 16 bits. */
    LONG;

    String trait() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** Least times in microseconds: clock low, clock high, set-up of a repeated START. */
  private record Timing(Ratio lowUs, Ratio highUs, Ratio startUs) {
    Timing(String lowUs, String highUs, String startUs) {
      this(us(lowUs), us(highUs), us(startUs));
    }

    private static Ratio us(String text) {
      return Ratio.of(new BigDecimal(text));
    }

    static Timing of(int speedHz) {
      return speedHz <= STANDARD_HZ ? STANDARD : FAST;
    }

    Map<String, Ratio> inputs(int speedHz, long clockHz) {
      return Map.of(
          "clock", Ratio.of(clockHz),
          "speed", Ratio.of(speedHz),
          "low_us", lowUs,
          "high_us", highUs,
          "start_us", startUs);
    }

    boolean isKept(Recipe.Outcome outcome) {
      return isAtLeast(outcome, "real_low_us", lowUs) && isAtLeast(outcome, "real_high_us", highUs);
    }

    private static boolean isAtLeast(Recipe.Outcome outcome, String name, Ratio least) {
      return outcome.number(name).filter(real -> real.minus(least).sign() < 0).isEmpty();
    }
  }

  static BusPlan of(Loop loop, Target target, long clockHz) {
    boolean hardware = target.family().busPort().controller().isPresent();
    BusDriver wanted = loop.busDriver();
    if (!hardware && (wanted == BusDriver.POLLED || wanted == BusDriver.BUFFERED)) {
      throw new Lacking("peripheral", without(target.family().busPort().kind()));
    }
    return switch (wanted) {
      case AUTO ->
          hardware
              ? hardware(
                  BusDriver.POLLED, "the part has a two-wire controller", loop, target, clockHz)
              : bitBanged(
                  without(target.family().busPort().kind()) + ", so the program moves the pins",
                  loop,
                  target,
                  clockHz);
      case BITBANG -> bitBanged("the loop file asks for it", loop, target, clockHz);
      case POLLED, BUFFERED -> hardware(wanted, "the loop file asks for it", loop, target, clockHz);
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

  private static BusPlan bitBanged(String why, Loop loop, Target target, long clockHz) {
    int speedHz = loop.sensor().speedHz();
    Recipe.Outcome outcome =
        target.toolchain().bitBang().solve(Timing.of(speedHz).inputs(speedHz, clockHz));
    if (outcome.tooFar().isPresent()) {
      throw new Lacking("clock", tooFar("the delay loop", speedHz, clockHz));
    }
    return new BusPlan(
        BusDriver.BITBANG,
        why,
        outcome.constants(),
        Delay.values()[(int) outcome.real("delay")],
        outcome.real("hz"),
        outcome.real("byte_us") / 1000);
  }

  private static BusPlan hardware(
      BusDriver driver, String why, Loop loop, Target target, long clockHz) {
    int speedHz = loop.sensor().speedHz();
    Timing timing = Timing.of(speedHz);
    BusPort.Controller controller = target.family().busPort().controller().orElseThrow();
    Recipe.Outcome outcome = controller.timing().solve(timing.inputs(speedHz, clockHz));
    if (outcome.tooFar().isPresent() || !timing.isKept(outcome)) {
      throw new Lacking("clock", tooFar("the two-wire controller", speedHz, clockHz));
    }
    return new BusPlan(driver, why, outcome.constants(), Delay.SHORT, outcome.real("hz"), 0);
  }

  private static String tooFar(String what, int speedHz, long clockHz) {
    return what + " cannot make " + speedHz + " Hz of " + Clocking.megahertz(clockHz);
  }

  /**
   * Milliseconds of a transaction of so many bytes: nine clocks each and what is between them, and
   * START and STOP.
   */
  double ms(int bytes) {
    return (9.0 * bytes + 3) * 1000 / hz + bytes * byteMs;
  }
}
