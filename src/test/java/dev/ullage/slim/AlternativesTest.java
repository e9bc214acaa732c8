package dev.ullage.slim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What is offered for a loop, and what is not. */
class AlternativesTest {

  private static Loop loop(String sensor, String sections) {
    return LoopReader.read(
        "test.yaml", "loop: test\nsensor:\n  address: 0x48\n  ask: [0x10]\n" + sensor + sections);
  }

  private static Loop loop(String sections) {
    return loop("", sections);
  }

  private static List<Change> changes(Loop loop, Aspect aspect, String target) {
    return Alternatives.of(loop, Cases.target(target), Set.of()).stream()
        .filter(change -> change.aspect() == aspect)
        .toList();
  }

  /** What the loop file would say, the milder first. */
  private static List<String> offers(Loop loop, Aspect aspect) {
    return changes(loop, aspect, "attiny85").stream().map(Change::to).toList();
  }

  private static Loop made(Loop loop, Aspect aspect, String to) {
    Change change =
        changes(loop, aspect, "attiny85").stream()
            .filter(each -> each.to().equals(to))
            .findFirst()
            .orElseThrow();
    return change.apply(loop).orElseThrow();
  }

  @Test
  void movingAverage_isShortenedOrKeepsNoWindow() {
    Loop loop = loop("average: {over_time: moving, readings: 8}\nalarm: {threshold: 9}\n");
    assertEquals(
        List.of("moving 4", "exponential 4", "moving 2", "block 8", "none"),
        offers(loop, Aspect.AVERAGE));
    assertEquals(4, made(loop, Aspect.AVERAGE, "moving 4").average().readings());
    assertEquals(1, made(loop, Aspect.AVERAGE, "none").average().readings());
  }

  @Test
  void median_staysOdd() {
    Loop loop = loop("average: {over_time: median, readings: 9}\nalarm: {threshold: 9}\n");
    assertEquals(
        List.of("median 5", "moving 9", "median 3", "exponential 4", "none"),
        offers(loop, Aspect.AVERAGE));
  }

  @Test
  void exponentialAverage_isRoundedToAShift() {
    Loop loop = loop("average: {over_time: exponential, readings: 10}\nalarm: {threshold: 9}\n");
    assertEquals(
        List.of("exponential 8", "exponential 5", "exponential 2", "none"),
        offers(loop, Aspect.AVERAGE));
  }

  @Test
  void noAverage_offersNone() {
    assertEquals(List.of(), offers(loop("alarm: {threshold: 9}\n"), Aspect.AVERAGE));
  }

  @Test
  void blocks_doNotMultiplyWhatIsCounted() {
    Loop loop =
        loop("average: {over_time: moving, readings: 8}\nalarm: {threshold: 9, trip_after: 3}\n");
    Change block =
        changes(loop, Aspect.AVERAGE, "attiny85").stream()
            .filter(change -> change.to().equals("block 8"))
            .findFirst()
            .orElseThrow();
    assertEquals(Optional.empty(), block.apply(loop));
    Loop uncounted = made(loop, Aspect.COUNTS, "1, 1");
    assertEquals(8, block.apply(uncounted).orElseThrow().average().readings());
  }

  @Test
  void counts_goTogether() {
    Loop loop = loop("alarm: {threshold: 9, trip_after: 3, clear_after: 2}\n");
    Loop made = made(loop, Aspect.COUNTS, "1, 1");
    assertEquals(1, made.alarm().tripAfter());
    assertEquals(1, made.alarm().clearAfter());
    assertEquals(loop.alarm().limit(), made.alarm().limit());
  }

  @Test
  void hysteresis_goesOnlyWhereReadingsAreCountedOnTheWayBack() {
    Loop counted = loop("alarm: {threshold: 9, hysteresis: 1, clear_after: 2}\n");
    assertEquals(0, made(counted, Aspect.HYSTERESIS, "0").alarm().hysteresis().signum());
    Loop uncounted = loop("alarm: {threshold: 9, hysteresis: 1}\n");
    Change change = changes(uncounted, Aspect.HYSTERESIS, "attiny85").get(0);
    assertEquals(Optional.empty(), change.apply(uncounted));
  }

  @Test
  void knob_becomesItsMiddle() {
    Loop loop = loop("alarm: {when: below, knob: {from: 2, to: 13}}\n");
    assertEquals(
        loop("alarm: {when: below, threshold: 7.5}\n").alarm(),
        made(loop, Aspect.KNOB, "threshold 7.5").alarm());
  }

  @Test
  void knob_whoseMiddleBreaksARule_isNotOffered() {
    Loop loop =
        loop(
            "  frame: {sample_bytes: 1, signed: false}\n",
            "alarm: {knob: {from: 0, to: 200}, hysteresis: 150}\n");
    assertEquals(List.of(), offers(loop, Aspect.KNOB));
  }

  @Test
  void muteButton_goesOnlyAfterTheLatch() {
    Loop loop = loop("alarm: {threshold: 9, latch: true}\nextras: {mute_button: true}\n");
    Change mute = changes(loop, Aspect.MUTE, "attiny85").get(0);
    assertEquals(Optional.empty(), mute.apply(loop));
    Loop unlatched = made(loop, Aspect.LATCH, "false");
    assertFalse(mute.apply(unlatched).orElseThrow().extras().muteButton());
  }

  @Test
  void lastOutput_isNotDropped() {
    Loop lampOnly = loop("alarm: {threshold: 9}\noutputs: {lamp: {blink_ms: 250}}\n");
    assertEquals(List.of("steady", "none"), offers(lampOnly, Aspect.LAMP));
    Change dropped = changes(lampOnly, Aspect.LAMP, "attiny85").get(1);
    assertEquals(Optional.empty(), dropped.apply(lampOnly));
  }

  @Test
  void relay_isNeverDropped() {
    Loop loop = loop("alarm: {threshold: 9}\noutputs: {lamp: {}, relay: {}}\n");
    Loop lean = made(loop, Aspect.LAMP, "none");
    assertTrue(lean.outputs().lamp().isEmpty());
    for (Change change : Alternatives.of(loop, Cases.target("attiny13a"), Set.of())) {
      change.apply(loop).ifPresent(l -> assertEquals(loop.outputs().relay(), l.outputs().relay()));
    }
  }

  @Test
  void sounder_losesPatternToneOrBoth() {
    Loop loop =
        loop(
            "alarm: {threshold: 9}\n"
                + "outputs: {lamp: {}, sounder: {tone_hz: 2700, on_ms: 100, off_ms: 300}}\n");
    assertEquals(
        List.of("tone_hz 2700, no pause", "own tone, 100/300 ms", "own tone, no pause", "none"),
        offers(loop, Aspect.SOUNDER));
    assertEquals(
        0, made(loop, Aspect.SOUNDER, "own tone, no pause").outputs().sounder().get().toneHz());
  }

  @Test
  void pinsOfWhatIsDropped_areNotNamedAnyMore() {
    Loop loop =
        loop(
            "alarm: {threshold: 9}\noutputs: {lamp: {}, sounder: {}}\n"
                + "board: {pins: {lamp: PB4, sda: PB0}}\n");
    assertEquals(1, made(loop, Aspect.LAMP, "none").board().pins().size());
    assertEquals(0, made(loop, Aspect.PINS, "chosen").board().pins().size());
  }

  @Test
  void report_sendsLessOrSlowerOrNothing() {
    Loop loop =
        loop(
            "  frame: {samples: 4}\n",
            "alarm: {threshold: 9}\nextras: {report: {baud: 9600, send: frame}}\n");
    assertEquals(
        List.of(
            "frame, 4800 baud",
            "frame, 2400 baud",
            "frame, 1200 baud",
            "average, 9600 baud",
            "average, 4800 baud",
            "average, 2400 baud",
            "average, 1200 baud",
            "none"),
        offers(loop, Aspect.REPORT));
  }

  @Test
  void checkByte_goesOnlyFromTheEnd() {
    String one = "  frame: {check: {crc8: {poly: 0x31, init: 0xFF}}}\n";
    assertEquals(List.of("none"), offers(loop(one, "alarm: {threshold: 9}\n"), Aspect.CHECK));
    String many = "  frame: {samples: 2, check: {crc8: {poly: 0x31, init: 0xFF}}}\n";
    assertEquals(List.of(), offers(loop(many, "alarm: {threshold: 9}\n"), Aspect.CHECK));
  }

  @Test
  void safeguards_takeMost() {
    String all = "  frozen_after: 9\n  frame: {check: {crc8: {poly: 0x31, init: 0xFF}}}\n";
    Loop loop = loop(all, "alarm: {threshold: 9}\nextras: {watchdog_ms: 2000}\n");
    int check = changes(loop, Aspect.CHECK, "attiny85").get(0).weight();
    assertTrue(check > changes(loop, Aspect.FROZEN, "attiny85").get(0).weight());
    assertTrue(check > changes(loop, Aspect.WATCHDOG, "attiny85").get(0).weight());
    assertEquals(0, made(loop, Aspect.FROZEN, "0").sensor().frozenAfter());
    assertTrue(made(loop, Aspect.WATCHDOG, "none").extras().watchdogMs().isEmpty());
  }

  @Test
  void sleep_getsLighter() {
    Loop loop = loop("alarm: {threshold: 9}\nextras: {sleep: deep, settings: true}\n");
    assertEquals(List.of("idle", "none"), offers(loop, Aspect.SLEEP));
    assertFalse(made(loop, Aspect.SETTINGS, "false").extras().settings());
  }

  @Test
  void buffers_shrinkToWhatTheSensorNeeds() {
    Loop loop = loop("alarm: {threshold: 9}\nbus_driver: buffered\n");
    Loop made = made(loop, Aspect.BUFFERS, "send 2, receive 2");
    assertEquals(2, made.buffer().sendBytes());
    assertEquals(2, made.buffer().receiveBytes());
  }

  @Test
  void drivers_areThoseThatThePartHas() {
    Loop loop = loop("alarm: {threshold: 9}\nbus_driver: buffered\n");
    assertEquals(
        List.of("polled", "bitbang"),
        changes(loop, Aspect.DRIVER, "atmega328p").stream().map(Change::to).toList());
    assertEquals(
        List.of("bitbang"),
        changes(loop, Aspect.DRIVER, "attiny13a").stream().map(Change::to).toList());
  }

  @Test
  void clocks_areThoseThatThePartMakes() {
    Loop loop = loop("alarm: {threshold: 9}\nboard: {clock_hz: 8000000}\n");
    assertEquals(
        List.of("as delivered", "2400000", "4800000", "9600000"),
        changes(loop, Aspect.CLOCK, "attiny13a").stream().map(Change::to).toList());
  }

  @Test
  void kept_isNotOffered() {
    Loop loop = loop("alarm: {threshold: 9, trip_after: 3}\noutputs: {lamp: {blink_ms: 250}}\n");
    List<Change> changes =
        Alternatives.of(loop, Cases.target("attiny85"), Set.of(Aspect.LAMP, Aspect.CLOCK));
    assertEquals(List.of(Aspect.COUNTS), changes.stream().map(Change::aspect).toList());
  }
}
