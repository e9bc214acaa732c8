package dev.ullage.proof;

import dev.ullage.loop.Alarm.Limit;
import dev.ullage.loop.Alarm.Setting;
import dev.ullage.loop.Average.OfFrame;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;

/**
 * A random course of readings around the limits of a loop: far on either side for a while, and then
 * a few counts beside them or exactly on them.
 */
final class RandomCourse {
  private static final int TRIES = 2_000;
  private static final int LEAST_CHANGES = 3;
  private static final int MOST_COUNTS = 12;
  private static final int KNOB_MV = 2_500;

  private final Random random;
  private final Loop loop;
  private final Trial trial;
  private final List<Double> limits;

  private RandomCourse(Loop loop, long seed) {
    this.random = new Random(seed);
    this.loop = loop;
    this.trial = new Trial(loop);
    this.limits = limits(loop);
  }

  /**
   * A course on which the alarm changes at least three times, and never so near to a limit that
   * rounding which the firmware may do decides.
   */
  static Trial of(Loop loop, int readings) {
    for (long seed = 1; seed < TRIES; seed++) {
      RandomCourse course = new RandomCourse(loop, seed);
      course.run(readings);
      if (course.trial.expected().isClear() && course.changes() >= LEAST_CHANGES) {
        return course.trial;
      }
    }
    throw new IllegalStateException("no course for " + loop.name());
  }

  private long changes() {
    String alarms = trial.expected().alarms();
    return LongStream.range(1, alarms.length())
        .filter(i -> alarms.charAt((int) i) != alarms.charAt((int) i - 1))
        .count();
  }

  private void run(int readings) {
    trial.knob(KNOB_MV);
    int longest = loop.average().readings() + loop.alarm().clearAfter() + 3;
    while (trial.script().readings() < readings) {
      int left = Math.min(1 + random.nextInt(longest), readings - trial.script().readings());
      double limit = limits.get(random.nextInt(limits.size()));
      int side = random.nextInt(3) - 1;
      for (int i = 0; i < left; i++) {
        read(limit, side == 0 ? random.nextInt(2 * MOST_COUNTS + 1) - MOST_COUNTS : side * far());
      }
      if (loop.extras().muteButton() && random.nextInt(3) == 0) {
        trial.press();
      }
    }
  }

  /** Well beyond the limit, and often beyond the other one too. */
  private int far() {
    double apart = Collections.max(limits) - Collections.min(limits);
    double counts = apart / trial.expected().count().doubleValue();
    return MOST_COUNTS * (4 + random.nextInt(60)) + (int) (3 * counts * random.nextDouble());
  }

  /** A frame whose value is so many counts off the limit. */
  private void read(double limit, int counts) {
    int samples = loop.sensor().frame().samples();
    if (loop.average().frame() == OfFrame.SHARE_ABOVE) {
      trial.raw(share((int) Math.round(limit * samples / 100) + counts / 6));
    } else {
      trial.raw(uneven(limit, counts));
    }
  }

  /** So many samples above the level, the others at it or below. */
  private long[] share(int above) {
    double level = loop.average().level().orElseThrow().doubleValue();
    double gain = loop.sensor().scale().gain().doubleValue();
    List<Long> raw = new ArrayList<>();
    for (int i = 0; i < loop.sensor().frame().samples(); i++) {
      double beside = i < above ? 1 + random.nextInt(9) : -random.nextInt(9);
      raw.add(trial.rawOf(level + beside * Math.abs(gain)));
    }
    Collections.shuffle(raw, random);
    return raw.stream().mapToLong(Long::longValue).toArray();
  }

  /** Samples that differ, with a sum, a largest and a smallest near what is wanted. */
  private long[] uneven(double limit, int counts) {
    Frame frame = loop.sensor().frame();
    long middle = trial.rawOf(limit);
    long[] raw = new long[frame.samples()];
    for (int i = 0; i < raw.length; i++) {
      long part = Math.floorDiv(counts + (raw.length > 1 ? i : 0), raw.length);
      long off = loop.average().frame() == OfFrame.MEAN ? part : i == 0 ? counts : away(counts);
      raw[i] = Math.max(frame.rawMin(), Math.min(frame.rawMax(), middle + off));
    }
    return raw;
  }

  /** Not beyond what is looked for: the largest or the smallest. */
  private int away(int counts) {
    boolean upright = loop.sensor().scale().gain().signum() > 0;
    boolean largest = (loop.average().frame() == OfFrame.MAX) == upright;
    return largest ? counts - random.nextInt(20) : counts + random.nextInt(20);
  }

  private static List<Double> limits(Loop loop) {
    Limit limit = loop.alarm().limit();
    double back = loop.alarm().hysteresis().doubleValue();
    if (limit instanceof Limit.Above above) {
      return List.of(middle(above.setting()), middle(above.setting()) - back);
    }
    if (limit instanceof Limit.Below below) {
      return List.of(middle(below.setting()), middle(below.setting()) + back);
    }
    Limit.Outside outside = (Limit.Outside) limit;
    return List.of(
        outside.low().doubleValue(),
        outside.low().doubleValue() + back,
        outside.high().doubleValue(),
        outside.high().doubleValue() - back);
  }

  private static double middle(Setting setting) {
    return setting instanceof Setting.Knob knob
        ? (knob.from().doubleValue() + knob.to().doubleValue()) / 2
        : ((Setting.Fixed) setting).threshold().doubleValue();
  }
}
