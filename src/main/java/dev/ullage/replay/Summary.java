package dev.ullage.replay;

import dev.ullage.loop.Average;
import dev.ullage.replay.Replay.Stretch;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The figures of a replay.
 *
 * @param failed readings without an answer, with a wrong check byte, or unchanged for too long
 * @param alarms how often the alarm went on
 * @param returns how often it came back within {@code settlesIn} readings after it had gone off
 * @param settlesIn readings in which a disturbance has left the average and the counts, twice over
 * @param lengthMs from the first reading to a period after the last
 * @param alarmMs time with the alarm on
 * @param average of what was judged, in the unit; empty where nothing was
 * @param noiseSd standard deviation of the average without its slow changes, in the unit
 */
public record Summary(
    int readings,
    int failed,
    int alarms,
    int returns,
    int settlesIn,
    long lengthMs,
    long alarmMs,
    Optional<Spread> average,
    double noiseSd) {

  // An exponential average of n readings has forgotten a reading to 5 % after three times n.
  private static final int EXPONENTIAL_SPANS = 3;
  private static final int FEWEST_TO_SETTLE = 10;

  static Summary of(Replay replay) {
    int readings = replay.steps().size();
    double[] averages = IntStream.range(0, readings).mapToDouble(replay::average).toArray();
    Spread spread = Spread.of(averages);
    return new Summary(
        readings,
        (int) replay.steps().stream().filter(step -> !step.good()).count(),
        replay.alarms().size(),
        returns(replay),
        settlesIn(replay),
        replay.trace().readings().get(readings - 1).timeMs() + replay.trace().periodMs(),
        alarmMs(replay),
        spread.count() == 0 ? Optional.empty() : Optional.of(spread),
        noise(averages, replay.loop().average()));
  }

  /** How often the alarm comes back too soon for it to be another cause. */
  static int returns(Replay replay) {
    List<Stretch> alarms = replay.alarms();
    int settlesIn = settlesIn(replay);
    return (int)
        IntStream.range(1, alarms.size())
            .filter(i -> alarms.get(i).first() - alarms.get(i - 1).last() <= settlesIn)
            .count();
  }

  private static int settlesIn(Replay replay) {
    int settled =
        span(replay.loop().average())
            + replay.loop().alarm().tripAfter()
            + replay.loop().alarm().clearAfter();
    return Math.max(FEWEST_TO_SETTLE, 2 * settled);
  }

  /** Readings that an average is made of. */
  private static int span(Average average) {
    return switch (average.overTime()) {
      case NONE -> 1;
      case BLOCK, MOVING, MEDIAN -> average.readings();
      case EXPONENTIAL -> EXPONENTIAL_SPANS * average.readings();
    };
  }

  private static long alarmMs(Replay replay) {
    List<Reading> readings = replay.trace().readings();
    long ms = 0;
    for (Stretch alarm : replay.alarms()) {
      long end =
          alarm.last() < readings.size()
              ? readings.get(alarm.last()).timeMs()
              : readings.get(alarm.last() - 1).timeMs() + replay.trace().periodMs();
      ms += end - readings.get(alarm.first() - 1).timeMs();
    }
    return ms;
  }

  /**
   * From {@code a - 2b + c} of averages that follow each other: what changes steadily cancels. If
   * the noise of a reading tells nothing about that of the next, its variance is that of the
   * average times a number that the kind of average decides.
   */
  private static double noise(double[] averages, Average kind) {
    // The middle one of some values has no such number; those that share no reading do.
    int apart = kind.overTime() == Average.OverTime.MEDIAN ? kind.readings() : 1;
    double[] judged = Arrays.stream(averages).filter(average -> !Double.isNaN(average)).toArray();
    double squares = 0;
    int count = 0;
    for (int i = 2 * apart; i < judged.length; i++) {
      double bend = judged[i] - 2 * judged[i - apart] + judged[i - 2 * apart];
      squares += bend * bend;
      count++;
    }
    return count == 0 ? 0 : Math.sqrt(squares / count / bendOf(kind));
  }

  /** Variance of {@code a - 2b + c} for an average whose own variance is one. */
  private static double bendOf(Average kind) {
    double share = 1.0 / kind.readings();
    return switch (kind.overTime()) {
      case NONE, BLOCK, MEDIAN -> 6;
      // Two readings come in and two go out, each with its share: 4 / n^2, over 1 / n.
      case MOVING -> 4 * share;
      // Successive values are correlated by r = 1 - share: 6 - 8 r + 2 r^2.
      case EXPONENTIAL -> 2 * share * (2 + share);
    };
  }
}
