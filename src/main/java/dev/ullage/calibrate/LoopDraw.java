package dev.ullage.calibrate;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Board;
import dev.ullage.loop.Bring;
import dev.ullage.loop.BufferSizes;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Circuit;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Margin;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Scale;
import dev.ullage.loop.Sensor;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * Draws loops so that every class of every number turns up often: absent, one, a power of two, one
 * byte, two bytes. What is drawn need not be sensible, only plannable.
 */
final class LoopDraw {
  private static final String NAME = "calibration";
  private static final int TALL_BITS = 20;

  private final Random random;

  /** The same seed draws the same loops. */
  LoopDraw(long seed) {
    this.random = new Random(seed);
  }

  Loop next() {
    boolean share = chance(5);
    Frame frame = frame();
    Scale scale = scale(frame);
    Average average = average(share, frame, scale);
    boolean mute = chance(3);
    Outputs outputs = outputs();
    boolean settings = chance(4);
    return new Loop(
        NAME,
        period(),
        sensor(frame, scale),
        average,
        alarm(frame, scale, average, mute, settings),
        outputs,
        extras(settings, mute),
        board(),
        driver(),
        new BufferSizes(32, 255),
        new Bring(0, 0, 0),
        new Margin(5, 16));
  }

  /** The same loop with one byte more to ask. */
  static Loop withOneMoreToAsk(Loop loop) {
    Sensor s = loop.sensor();
    List<Integer> ask = IntStream.rangeClosed(0, s.ask().size()).boxed().toList();
    return loop.with(
        new Sensor(
            s.bus(),
            s.address(),
            s.speedHz(),
            ask,
            s.restart(),
            s.waitMs(),
            s.frozenAfter(),
            s.frame(),
            s.scale()));
  }

  private int period() {
    return of(1000, 100, 2000, 5000, 60_000, 600_000, 250);
  }

  private Frame frame() {
    int bytes = of(1, 2, 2, 3, 4);
    int shift = chance(3) ? between(1, 8 * bytes - 4) : 0;
    int left = 8 * bytes - shift;
    // Whole bytes are a class of their own, and would be rare otherwise.
    int some = chance(3) ? Math.max(1, between(4, left) / 8) * 8 : between(4, left);
    int bits = chance(2) ? Math.min(some, left) : 0;
    return new Frame(
        chance(3) ? between(1, 6) : 0,
        chance(2) ? 1 : between(2, 64),
        1,
        bytes,
        of(Frame.ByteOrder.values()),
        chance(2),
        shift,
        bits,
        chance(2)
            ? Optional.of(new Frame.Crc8(0x31, 0xFF, of(Frame.Crc8.Over.values())))
            : Optional.empty());
  }

  private Scale scale(Frame frame) {
    // Large counts times a large gain would not fit the report's 32 bits.
    String gain =
        frame.rawBits() > TALL_BITS ? of("0.001", "-0.01") : of("1", "-1", "0.25", "0.1", "2");
    return new Scale(
        new BigDecimal(gain), chance(2) ? BigDecimal.ZERO : new BigDecimal("-45"), "unit");
  }

  private Sensor sensor(Frame frame, Scale scale) {
    List<Integer> ask = IntStream.range(0, of(0, 1, 1, 2, 5)).boxed().toList();
    return new Sensor(
        Sensor.Bus.I2C,
        0x48,
        of(100_000, 400_000, 10_000, 1_000),
        ask,
        chance(2),
        chance(3) ? of(1, 20, 600) : 0,
        chance(4) ? 20 : 0,
        frame,
        scale);
  }

  private Average average(boolean share, Frame frame, Scale scale) {
    Average.OverTime overTime = of(Average.OverTime.values());
    int readings =
        switch (overTime) {
          case NONE -> 1;
          case MEDIAN -> of(3, 5, 7);
          case BLOCK, MOVING, EXPONENTIAL -> of(2, 8, 10, 100, 128, 255);
        };
    Average.OfFrame reduce =
        share
            ? Average.OfFrame.SHARE_ABOVE
            : of(Average.OfFrame.MEAN, Average.OfFrame.MAX, Average.OfFrame.MIN);
    return new Average(
        reduce,
        overTime,
        readings,
        share ? Optional.of(at(frame, scale, percent(60))) : Optional.empty());
  }

  /** The value at this part of the sensor's whole range, counted from its lowest reading. */
  private static BigDecimal at(Frame frame, Scale scale, BigDecimal part) {
    long span = frame.rawMax() - frame.rawMin();
    BigDecimal raw =
        BigDecimal.valueOf(frame.rawMin()).add(part.multiply(BigDecimal.valueOf(span)));
    return scale.toUnit(raw);
  }

  private Alarm alarm(Frame frame, Scale scale, Average average, boolean mute, boolean settings) {
    boolean share = average.level().isPresent();
    BigDecimal first = of(percent(20), percent(5), percent(1));
    BigDecimal second = of(percent(60), percent(30));
    BigDecimal one = share ? first.movePointRight(2) : at(frame, scale, first);
    BigDecimal other = share ? second.movePointRight(2) : at(frame, scale, second);
    BigDecimal from = one.min(other);
    BigDecimal to = one.max(other);
    BigDecimal span = to.subtract(from);
    return new Alarm(
        limit(from, to, settings),
        chance(2) ? BigDecimal.ZERO : hysteresis(span),
        of(1, 3),
        of(1, 3),
        mute && chance(2),
        of(Alarm.OnFault.values()),
        of(0, 5));
  }

  private BigDecimal hysteresis(BigDecimal span) {
    return span.multiply(of(percent(2), percent(25), percent(45))).round(new MathContext(6));
  }

  private static BigDecimal percent(int hundredths) {
    return BigDecimal.valueOf(hundredths, 2);
  }

  private Alarm.Limit limit(BigDecimal from, BigDecimal to, boolean settings) {
    if (!settings && chance(4)) {
      return new Alarm.Limit.Outside(from, to);
    }
    Alarm.Setting setting =
        !settings && chance(2)
            ? new Alarm.Setting.Knob(from, to)
            : new Alarm.Setting.Fixed(from.add(to).divide(BigDecimal.valueOf(2)));
    return chance(2) ? new Alarm.Limit.Above(setting) : new Alarm.Limit.Below(setting);
  }

  private Outputs outputs() {
    return new Outputs(
        chance(4)
            ? Optional.empty()
            : Optional.of(new Outputs.Lamp(of(0, 250, 10_000), of(Outputs.Active.values()))),
        chance(4) ? Optional.empty() : Optional.of(sounder()),
        chance(2) ? Optional.empty() : Optional.of(new Outputs.Relay(of(Outputs.Active.values()))));
  }

  private Outputs.Sounder sounder() {
    boolean pattern = chance(2);
    int ms = of(200, 30_000);
    return new Outputs.Sounder(of(0, 2000, 2000, 4000), ms, pattern ? ms * of(1, 2) : 0);
  }

  private Extras extras(boolean settings, boolean mute) {
    return new Extras(
        chance(2)
            ? Optional.empty()
            : Optional.of(new Extras.Report(of(9600, 1200), of(Extras.Report.Send.values()))),
        settings,
        chance(3) ? OptionalInt.of(2000) : OptionalInt.empty(),
        of(Extras.Sleep.NONE, Extras.Sleep.NONE, Extras.Sleep.IDLE, Extras.Sleep.DEEP),
        mute);
  }

  private Board board() {
    OptionalLong clock =
        chance(3)
            ? OptionalLong.empty()
            : OptionalLong.of(of(1_000_000, 8_000_000, 4_000_000, 9_600_000, 16_000_000));
    return new Board(Optional.empty(), clock, 4700, 100, Map.of(), Circuit.USUAL);
  }

  private BusDriver driver() {
    return of(BusDriver.BITBANG, BusDriver.POLLED, BusDriver.BUFFERED, BusDriver.AUTO);
  }

  private boolean chance(int oneIn) {
    return random.nextInt(oneIn) == 0;
  }

  private int between(int low, int high) {
    return low + random.nextInt(high - low + 1);
  }

  @SafeVarargs
  private <T> T of(T... values) {
    return values[random.nextInt(values.length)];
  }
}
