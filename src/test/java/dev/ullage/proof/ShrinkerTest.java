package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;

class ShrinkerTest {
  /** Only what has to be there. */
  private static final int FEWEST_LINES = 10;

  @Test
  void whateverTheLoop_onlyWhatTheFaultNeedsIsLeft() {
    Predicate<Loop> fault =
        loop ->
            loop.sensor().frame().samples() > 4
                && loop.average().overTime() == Average.OverTime.MOVING;
    List<Loop> faulty = Loops.stream(3).filter(fault).limit(20).toList();

    for (Loop loop : faulty) {
      String text = Shrinker.shrink(loop, fault);
      Loop small = LoopReader.read("small.yaml", text);

      assertTrue(fault.test(small), text);
      assertTrue(small.sensor().frame().samples() < 10, text);
      assertTrue(text.lines().count() <= FEWEST_LINES + 6, text);
      assertTrue(small.extras().report().isEmpty(), text);
      assertEquals(0, small.sensor().waitMs(), text);
    }
  }

  @Test
  void faultOfEveryLoop_leavesTheSmallestLoop() {
    String text = Shrinker.shrink(Loops.random(5, 1).get(0), any -> true);

    assertTrue(text.lines().count() <= FEWEST_LINES, text);
  }

  @Test
  void faultOfAKnob_keepsTheKnob() {
    Predicate<Loop> fault =
        loop -> loop.alarm().limit() instanceof Alarm.Limit.Below below && below.knob().isPresent();
    Loop loop = Loops.stream(8).filter(fault).findFirst().orElseThrow();

    String text = Shrinker.shrink(loop, fault);

    assertTrue(text.contains("knob:"), text);
    assertTrue(text.lines().count() <= FEWEST_LINES + 2, text);
  }
}
