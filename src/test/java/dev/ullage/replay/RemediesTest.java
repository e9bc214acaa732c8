package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.replay.Remedy.Setting;
import java.math.BigDecimal;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RemediesTest {
  private static final String ABOVE_30 = "alarm: {when: above, threshold: 30%s}";

  private static List<Remedy> remedies(String values) {
    return Remedies.of(
        Traces.replay(Traces.loop(ABOVE_30.formatted("")), values.replace(' ', '\n')));
  }

  private static Remedy of(Setting setting, List<Remedy> remedies) {
    return remedies.stream().filter(r -> r.setting() == setting).findFirst().orElseThrow();
  }

  @Test
  void quietAlarm_needsNone() {
    assertEquals(List.of(), remedies("20 31 31 31 20 20"));
  }

  /** It falls to 29.2 in between, so 0.8 is enough: off at 29.2 would still be off. */
  @Test
  void dips_needAHysteresisThatReachesBelowThem() {
    List<Remedy> remedies = remedies("20 31 29.2 31 29.5 31 20");
    Remedy hysteresis = of(Setting.HYSTERESIS, remedies);
    assertEquals(new BigDecimal("0.9"), hysteresis.value());
    assertEquals(1, hysteresis.alarms());
    assertEquals(0, hysteresis.laterOn());
    assertEquals(0, hysteresis.laterOff());
    Remedy clear = of(Setting.CLEAR_AFTER, remedies);
    assertEquals(BigDecimal.valueOf(2), clear.value());
    assertEquals(0, clear.missed());
  }

  /** A count of two swallows the single readings before the alarm, and makes it one later. */
  @Test
  void spikes_needACountOfReadings() {
    Remedy trip = of(Setting.TRIP_AFTER, remedies("20 31 20 31 20 31 31 31 31 20 20"));
    assertEquals(BigDecimal.valueOf(2), trip.value());
    assertEquals(1, trip.alarms());
    assertEquals(1, trip.laterOn());
    assertEquals(2, trip.missed());
  }

  /** Noise of a known size around a slow rise: what is offered does stop the chatter. */
  @Test
  void noisyRise_isCuredByWhatIsOffered() {
    Random random = new Random(5);
    StringBuilder values = new StringBuilder();
    for (int i = 0; i < 400; i++) {
      values.append(String.format("%.1f ", 28 + i * 0.01 + random.nextGaussian() * 0.5));
    }
    Replay replay =
        Traces.replay(
            Traces.loop(ABOVE_30.formatted("")), values.toString().strip().replace(' ', '\n'));
    assertTrue(replay.summary().returns() > 5);
    assertEquals(0.5, replay.summary().noiseSd(), 0.05);
    List<Remedy> remedies = Remedies.of(replay);
    assertEquals(3, remedies.size());
    Remedy hysteresis = of(Setting.HYSTERESIS, remedies);
    Loop cured = Traces.loop(ABOVE_30.formatted(", hysteresis: " + hysteresis.value()));
    Replay then = replay.with(cured);
    assertEquals(0, then.summary().returns());
    assertEquals(hysteresis.alarms(), then.summary().alarms());
    // Peak to peak is what it has to exceed at most: about six deviations.
    assertTrue(hysteresis.value().doubleValue() < 3.5, hysteresis::toString);
  }
}
