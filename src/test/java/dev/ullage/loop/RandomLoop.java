package dev.ullage.loop;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.IntStream;

/** Makes whole loops whose every rule holds. */
final class RandomLoop {
  private static final int[] PERIODS_MS = {50, 100, 250, 500, 1_000, 5_000, 60_000, 600_000};
  private static final int[] WATCHDOGS_MS = {16, 120, 500, 2_000, 8_000};

  private final Dice dice;

  RandomLoop(Random random) {
    this.dice = new Dice(random);
  }

  Loop loop() {
    BusDriver driver = dice.of(BusDriver.AUTO, BusDriver.AUTO, dice.of(BusDriver.values()));
    Sensor sensor = new RandomSensor(dice).sensor(driver);
    Average average = average(sensor);
    Alarm alarm = alarm(sensor, average);
    Loop relaxed =
        new Loop(
            name(),
            PERIODS_MS[PERIODS_MS.length - 1],
            sensor,
            average,
            alarm,
            outputs(),
            extras(alarm),
            board(sensor),
            driver,
            buffer(sensor),
            bring(),
            dice.percent(80)
                ? new Margin(5, 16)
                : new Margin(dice.between(0, 50), dice.between(0, 200)));
    return inTime(relaxed);
  }

  private String name() {
    String plain = dice.of("cold-store guard", "bee-hive watch", "compost heap", "bilge", "kiln 7");
    return dice.percent(85)
        ? plain
        : dice.of(
            "*/ \"quoted\" \\",
            "$(name) <b> & 'c'",
            "B\u00e4renh\u00f6hle",
            "#1: a, b",
            "\ud83d\udc1d hive",
            "null");
  }

  private Average average(Sensor sensor) {
    Average.OfFrame frame =
        sensor.frame().samples() == 1
            ? Average.OfFrame.MEAN
            : dice.of(
                Average.OfFrame.MEAN,
                Average.OfFrame.MEAN,
                Average.OfFrame.MAX,
                Average.OfFrame.MIN,
                Average.OfFrame.SHARE_ABOVE);
    Average once = new Average(frame, Average.OverTime.NONE, 1, level(sensor, frame));
    if (SumWidth.of(sensor.frame(), once).bits() > SumWidth.MAX_BITS) {
      return new Average(Average.OfFrame.MAX, Average.OverTime.NONE, 1, Optional.empty());
    }
    return overTime(sensor, once);
  }

  private Optional<BigDecimal> level(Sensor sensor, Average.OfFrame frame) {
    return frame == Average.OfFrame.SHARE_ABOVE
        ? Optional.of(inside(ValueRange.ofSample(sensor)))
        : Optional.empty();
  }

  private Average overTime(Sensor sensor, Average once) {
    SumWidth sum = SumWidth.of(sensor.frame(), once);
    int most = (int) Math.min(255, sum.mostValues() / sum.values());
    Average.OverTime overTime = dice.of(Average.OverTime.values());
    return switch (overTime) {
      case NONE -> once;
      case MEDIAN ->
          new Average(
              once.frame(), overTime, 2 * dice.of(1, 2, dice.between(1, 15)) + 1, once.level());
      case BLOCK, MOVING, EXPONENTIAL ->
          most < 2
              ? once
              : new Average(
                  once.frame(),
                  overTime,
                  Math.min(most, dice.of(4, 8, 16, dice.between(2, 32), dice.between(2, 255))),
                  once.level());
    };
  }

  private Alarm alarm(Sensor sensor, Average average) {
    ValueRange range = ValueRange.ofJudged(sensor, average);
    Alarm.Limit limit = limit(range);
    return new Alarm(
        limit,
        hysteresis(limit, range),
        dice.count(1, 255),
        dice.count(1, 255),
        dice.percent(25),
        dice.of(Alarm.OnFault.values()),
        dice.count(1, 255));
  }

  private Alarm.Limit limit(ValueRange range) {
    BigDecimal one = inside(range);
    BigDecimal other = inside(range);
    boolean two = one.compareTo(other) != 0;
    if (two && dice.percent(15)) {
      return new Alarm.Limit.Outside(one.min(other), one.max(other));
    }
    Alarm.Setting setting =
        two && dice.percent(40)
            ? new Alarm.Setting.Knob(one.min(other), one.max(other))
            : new Alarm.Setting.Fixed(one);
    return dice.percent(65) ? new Alarm.Limit.Above(setting) : new Alarm.Limit.Below(setting);
  }

  /** A value between the ends, mostly a round one. */
  private BigDecimal inside(ValueRange range) {
    BigDecimal share = BigDecimal.valueOf(dice.between(50, 950), 3);
    BigDecimal exact = Numbers.plain(range.low().add(range.width().multiply(share)));
    int decimals = dice.of(0, 1, 3, 9);
    BigDecimal round = Numbers.plain(exact.setScale(decimals, RoundingMode.DOWN));
    boolean within = range.low().compareTo(round) < 0 && round.compareTo(range.high()) < 0;
    return within ? round : Numbers.plain(exact.setScale(9, RoundingMode.DOWN));
  }

  private BigDecimal hysteresis(Alarm.Limit limit, ValueRange range) {
    if (dice.percent(30)) {
      return BigDecimal.ZERO;
    }
    BigDecimal share = BigDecimal.valueOf(dice.of(dice.between(1, 50), dice.between(1, 999)), 3);
    BigDecimal most = room(limit, range).multiply(share);
    return Numbers.plain(most.setScale(dice.of(0, 1, 2, 9), RoundingMode.DOWN));
  }

  private static BigDecimal room(Alarm.Limit limit, ValueRange range) {
    if (limit instanceof Alarm.Limit.Outside outside) {
      return outside.high().subtract(outside.low()).divide(BigDecimal.valueOf(2));
    }
    if (!(LimitRules.settingOf(limit) instanceof Alarm.Setting.Fixed fixed)) {
      return range.width();
    }
    return limit instanceof Alarm.Limit.Above
        ? fixed.threshold().subtract(range.low())
        : range.high().subtract(fixed.threshold());
  }

  private Outputs outputs() {
    int which = dice.of(1, 2, 3, 3, 4, 5, 6, 7);
    return new Outputs(
        (which & 1) != 0
            ? Optional.of(new Outputs.Lamp(dice.of(0, 250, dice.between(20, 10_000)), active()))
            : Optional.empty(),
        (which & 2) != 0 ? Optional.of(sounder()) : Optional.empty(),
        (which & 4) != 0 ? Optional.of(new Outputs.Relay(active())) : Optional.empty());
  }

  private Outputs.Active active() {
    return dice.of(Outputs.Active.values());
  }

  private Outputs.Sounder sounder() {
    return new Outputs.Sounder(
        dice.of(0, 2_700, dice.between(100, 10_000)),
        dice.of(200, dice.between(10, 10_000)),
        dice.of(0, 300, dice.between(10, 10_000)));
  }

  private Extras extras(Alarm alarm) {
    boolean fixed = LimitRules.settingOf(alarm.limit()) instanceof Alarm.Setting.Fixed;
    return new Extras(
        dice.percent(40) ? Optional.of(report()) : Optional.empty(),
        fixed && dice.percent(35),
        dice.percent(30) ? OptionalInt.of(dice.of(500, 2_000, 8_000)) : OptionalInt.empty(),
        dice.of(Extras.Sleep.values()),
        alarm.latch() || dice.percent(15));
  }

  private Extras.Report report() {
    return new Extras.Report(
        dice.of(9_600, 9_600, 2_400, 19_200, 38_400, 115_200),
        dice.of(Extras.Report.Send.values()));
  }

  private Board board(Sensor sensor) {
    return new Board(
        dice.percent(70)
            ? Optional.empty()
            : Optional.of(new BigDecimal(dice.of("5", "3.3", "2.7", "1.8"))),
        dice.percent(60)
            ? OptionalLong.empty()
            : OptionalLong.of(dice.of(8_000_000L, 1_000_000L, 16_000_000L, 3_686_400L)),
        dice.of(4_700, 10_000, 2_200),
        dice.of(100, 50, 400),
        dice.percent(5) ? Map.of(Board.Role.SDA, "PB0", Board.Role.SCL, "PB2") : Map.of(),
        circuit(new Dice(new Random(31L * sensor.address() + sensor.speedHz()))));
  }

  /** Dice of its own, so that the other choices stay as they are. */
  private static Circuit circuit(Dice dice) {
    return new Circuit(
        dice.of(Circuit.Supply.values()),
        dice.percent(70) ? OptionalInt.empty() : OptionalInt.of(dice.of(225, 1_200)),
        dice.percent(70) ? Optional.empty() : Optional.of(new BigDecimal("3.3")),
        new BigDecimal(dice.of("1", "0.2", "30")),
        dice.of(0, 0, 500),
        new BigDecimal(dice.of("2", "3.1")),
        new BigDecimal(dice.of("5", "20")),
        new BigDecimal(dice.of("15", "90")),
        new BigDecimal(dice.of("70", "30")));
  }

  private BufferSizes buffer(Sensor sensor) {
    int send = Math.max(dice.of(32, 8, 16), sensor.ask().size() + 1);
    int receive = Math.max(dice.of(32, 16, 64), Math.min(255, sensor.frame().bytes()));
    return new BufferSizes(send, receive);
  }

  private Bring bring() {
    return dice.percent(85)
        ? new Bring(0, 0, 0)
        : new Bring(dice.between(0, 2_000), dice.between(0, 64), dice.between(0, 32));
  }

  /** The same loop with a period, and a watchdog if any, that a reading fits into. */
  private Loop inTime(Loop loop) {
    long busyMs = WholeRules.busyMs(loop);
    Extras extras = loop.extras();
    OptionalInt watchdog =
        extras.watchdogMs().isPresent() ? oneAbove(WATCHDOGS_MS, busyMs) : OptionalInt.empty();
    return new Loop(
        loop.name(),
        oneAbove(PERIODS_MS, busyMs).orElseThrow(),
        loop.sensor(),
        loop.average(),
        loop.alarm(),
        loop.outputs(),
        new Extras(
            extras.report(), extras.settings(), watchdog, extras.sleep(), extras.muteButton()),
        loop.board(),
        loop.busDriver(),
        loop.buffer(),
        loop.bring(),
        loop.margin());
  }

  private OptionalInt oneAbove(int[] choices, long least) {
    int[] enough = IntStream.of(choices).filter(choice -> choice >= least).toArray();
    return enough.length == 0
        ? OptionalInt.empty()
        : OptionalInt.of(enough[dice.percent(50) ? 0 : dice.between(0, enough.length - 1)]);
  }
}
