package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Loop;
import dev.ullage.target.BusPort;
import dev.ullage.target.Target;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * How the bus is driven, and how fast it really is.
 *
 * @param driver never {@code AUTO}
 * @param why one sentence: why this driver
 * @param constants timing words of the driver, for {@code config.h}
 * @param delay where the program moves the pins: how it waits for half a bit
 * @param phases low and high time of the clock, where the recipe tells them
 * @param hz the fastest clock that comes out
 * @param byteMs what the program takes between two bytes
 */
public record BusPlan(
    BusDriver driver,
    String why,
    Map<String, Long> constants,
    Delay delay,
    Optional<Phases> phases,
    double hz,
    double byteMs) {

  private static final String REAL_LOW = "real_low_us";
  private static final String REAL_HIGH = "real_high_us";

  public BusPlan {
    constants = Collections.unmodifiableMap(new LinkedHashMap<>(constants));
  }

  /** Low and high time of the clock as they come out, in us, without what the rise adds. */
  public record Phases(double lowUs, double highUs) {
    static Optional<Phases> of(Recipe.Outcome outcome) {
      return outcome
          .number(REAL_LOW)
          .flatMap(
              low ->
                  outcome
                      .number(REAL_HIGH)
                      .map(high -> new Phases(low.approximately(), high.approximately())));
    }
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

  private static Map<String, Ratio> inputs(BusMode mode, int speedHz, long clockHz) {
    return Map.of(
        "clock", Ratio.of(clockHz),
        "speed", Ratio.of(speedHz),
        "low_us", mode.lowUs(),
        "high_us", mode.highUs(),
        "start_us", mode.startUs());
  }

  private static boolean isKept(BusMode mode, Recipe.Outcome outcome) {
    return isAtLeast(outcome, REAL_LOW, mode.lowUs())
        && isAtLeast(outcome, REAL_HIGH, mode.highUs());
  }

  private static boolean isAtLeast(Recipe.Outcome outcome, String name, Ratio least) {
    return outcome.number(name).filter(real -> real.minus(least).sign() < 0).isEmpty();
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
              ? either(loop, target, clockHz)
              : moved(without(target.family().busPort().kind()), loop, target, clockHz);
      case BITBANG -> bitBanged("the loop file asks for it", loop, target, clockHz);
      case POLLED, BUFFERED -> hardware(wanted, "the loop file asks for it", loop, target, clockHz);
    };
  }

  private static BusPlan either(Loop loop, Target target, long clockHz) {
    try {
      return hardware(
          BusDriver.POLLED, "the part has a two-wire controller", loop, target, clockHz);
    } catch (Lacking clock) {
      return moved(clock.lack().reason(), loop, target, clockHz);
    }
  }

  /**
   * Without a controller, for that reason.
   *
   * @throws Lacking where the clock is not good for that either
   */
  static BusPlan moved(String because, Loop loop, Target target, long clockHz) {
    return bitBanged(because + ", so the program moves the pins", loop, target, clockHz);
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
        target.toolchain().bitBang().solve(inputs(BusMode.of(speedHz), speedHz, clockHz));
    if (outcome.tooFar().isPresent()) {
      throw new Lacking("clock", tooFar("the delay loop", speedHz, clockHz));
    }
    return new BusPlan(
        BusDriver.BITBANG,
        why,
        outcome.constants(),
        Delay.values()[(int) outcome.real("delay")],
        Phases.of(outcome),
        outcome.real("hz"),
        outcome.real("byte_us") / 1000);
  }

  private static BusPlan hardware(
      BusDriver driver, String why, Loop loop, Target target, long clockHz) {
    int speedHz = loop.sensor().speedHz();
    BusMode mode = BusMode.of(speedHz);
    BusPort.Controller controller = target.family().busPort().controller().orElseThrow();
    Recipe.Outcome outcome = controller.timing().solve(inputs(mode, speedHz, clockHz));
    if (outcome.tooFar().isPresent() || !isKept(mode, outcome)) {
      throw new Lacking("clock", tooFar("the two-wire controller", speedHz, clockHz));
    }
    return new BusPlan(
        driver, why, outcome.constants(), Delay.SHORT, Phases.of(outcome), outcome.real("hz"), 0);
  }

  private static String tooFar(String what, int speedHz, long clockHz) {
    return what + " cannot make " + speedHz + " Hz of " + Clocking.megahertz(clockHz);
  }

  /**
   * Milliseconds of a transaction of so many bytes: nine clocks each and what is between them, and
   * START and STOP.
   */
  public double ms(int bytes) {
    return (9.0 * bytes + 3) * 1000 / hz + bytes * byteMs;
  }
}
