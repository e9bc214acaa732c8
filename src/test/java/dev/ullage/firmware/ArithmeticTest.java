package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.loop.Loop;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Folded limits and widths against published values and hand calculation. */
class ArithmeticTest {

  // Microchip SAM ADC docs, "Oversampling and Decimation", Table 1: the sum of n 12-bit samples
  // takes 12 + log2 n bits (F-088); 16 x 0xFFF fits 16 bits, 17 x 0xFFF does not (F-089).
  @ParameterizedTest
  @CsvSource({"4, u16", "16, u16", "17, u32", "64, u32"})
  void sumOfTwelveBitSamples_isAsWideAsItMustBe(int samples, String type) {
    Loop loop =
        LoopText.loop(
            "  frame: {samples: " + samples + ", signed: false, bits: 12}\n",
            "alarm: {threshold: 100}\n");

    assertEquals(type, Arithmetic.of(loop).value().toString());
  }

  // A worked sequence, "Hysteresis" of the optrix documentation (F-122): threshold 30, on when
  // above, hysteresis 1.
  @Test
  void alarm_followsThePublishedSequence() {
    int[] tenths = {299, 300, 301, 302, 299, 297, 301, 299, 250, 230};

    assertEquals(
        List.of(false, false, true, true, false, false, true, false, false, false),
        judged("0", tenths));
    assertEquals(
        List.of(false, false, true, true, true, true, true, true, false, false),
        judged("1", tenths));
  }

  private static List<Boolean> judged(String hysteresis, int... tenths) {
    Loop loop =
        LoopText.loop(
            "  scale: {gain: 0.1}\n", "alarm: {threshold: 30, hysteresis: " + hysteresis + "}\n");
    var limits = (Arithmetic.Limits.Above) Arithmetic.of(loop).limits();
    boolean[] on = {false};
    return java.util.Arrays.stream(tenths)
        .mapToObj(raw -> on[0] = raw > (on[0] ? limits.clear() : limits.trip()))
        .toList();
  }

  @Test
  void thresholdOfAMovingAverage_isFoldedIntoTheSum() {
    Loop loop =
        LoopText.loop(
            "  frame: {samples: 16, signed: true, bits: 12}\n  scale: {gain: 0.25}\n",
            "average: {over_time: moving, readings: 8}\nalarm: {threshold: 8, hysteresis: 0.5}\n");

    // 8 degrees are 32 counts; of 16 samples and 8 readings that is 4096.
    assertEquals(new Arithmetic.Limits.Above(4096, 4096 - 256), Arithmetic.of(loop).limits());
  }

  @Test
  void fallingScale_turnsAboveIntoBelow() {
    Loop loop =
        LoopText.loop(
            "  scale: {gain: -0.5, offset: 100}\n", "alarm: {threshold: 80.2, hysteresis: 3}\n");

    // 80.2 = 100 - 39.6 / 2: a count below 39.6 is a value above 80.2.
    assertEquals(new Arithmetic.Limits.Below(40, 46), Arithmetic.of(loop).limits());
  }

  @Test
  void outside_keepsBothEdgesExact() {
    Loop loop =
        LoopText.loop(
            "  scale: {gain: 0.5}\n", "alarm: {when: outside, low: 10, high: 20, hysteresis: 1}\n");

    assertEquals(new Arithmetic.Limits.Outside(20, 40, 22, 38), Arithmetic.of(loop).limits());
  }

  @Test
  void shareOfSamples_isCountedAgainstARawLevel() {
    Loop loop =
        LoopText.loop(
            "  frame: {samples: 64}\n  scale: {gain: 0.25}\n",
            "average: {frame: share_above, level: 30}\nalarm: {threshold: 25}\n");
    Arithmetic arithmetic = Arithmetic.of(loop);

    assertEquals(new Arithmetic.Level(true, 120), arithmetic.level().orElseThrow());
    // 25 per cent of 64 samples are 16.
    assertEquals(new Arithmetic.Limits.Above(16, 16), arithmetic.limits());
  }
}
