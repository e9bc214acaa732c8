package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Estimate.Interval;
import dev.ullage.sizing.Estimate.Part;
import dev.ullage.sizing.Estimate.Step;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class SizingTest {
  private static final Target TINY85 = Tables.target("attiny85");
  private static final Module ASK =
      Tables.module("ask[ask=yes]", Module.Scope.PORTABLE, Map.of("ask", 3));
  private static final List<Module> PLAN =
      List.of(
          Tables.portable("main[]"),
          ASK,
          Tables.portable("average[kind=moving,sum=s16]"),
          Tables.port("bus_buffered[]"));
  private static final List<Buffer> BUFFERS =
      List.of(
          new Buffer("averaging window", "average", "average_window", 24),
          new Buffer("bus send", "bus_buffered", "bus_sent", 5),
          new Buffer("bus receive", "bus_buffered", "bus_received", 9));

  private final Sizing sizing = new Sizing(Tables.small().tables());

  @Test
  void exactPlan_isTheSumOfWhatIsReachedAndNeeded() {
    Estimate estimate = sizing.estimate(TINY85, PLAN, BUFFERS);
    assertEquals(
        List.of(
            new Part("start-up", 52, 0),
            new Part("main", 20, 0),
            new Part("ask", 30 + 3 * 6, 0),
            new Part("average", 64, 24),
            new Part("bus_buffered", 44 + 10 + 62 + 7, 5 + 9 + 7),
            new Part("run-time helpers", 18 + 8 + 16 + 22, 0)),
        estimate.modules());
    assertEquals(Grade.MEASURED, estimate.grade());
    assertEquals(24 + 21, estimate.staticRam());
    assertEquals(371, estimate.flash().likely());
    assertEquals(new Interval(369, 371, 373), estimate.flash());
  }

  @Test
  void exactPlan_hasTheDeepestPathAndTheHandlerOnTop() {
    Estimate estimate = sizing.estimate(TINY85, PLAN, BUFFERS);
    assertEquals(
        List.of(
            new Step("main", 2 + 1),
            new Step("average_add", 2 + 2),
            new Step("__mulhi3", 2),
            new Step("__mulhi3_tail", 3),
            new Step("__vector_10", 2 + 15)),
        estimate.stackPath());
    assertEquals(12 + 17, estimate.stack());
  }

  @Test
  void helperOfTwoModules_countsOnce() {
    Module twice = Tables.portable("knob[]");
    Sizing both =
        new Sizing(
            Tables.small()
                .portable("main[]", "C main 20 1 ask@0 average_add@1 bus_start@0 knob@0")
                .portable("knob[]", "C knob 12 0 __mulhi3@0")
                .tables());
    List<Module> plan = new java.util.ArrayList<>(PLAN);
    plan.add(twice);
    assertEquals(371 + 12, both.estimate(TINY85, plan, BUFFERS).flash().likely());
  }

  @Test
  void sameLocalNameInTwoModules_isTwoFunctions() {
    Sizing both =
        new Sizing(
            Tables.small()
                .portable("main[]", "C main 20 1 one@0 two@0")
                .portable("one[]", "C one 10 0 start@0", "c start 3 5")
                .portable("two[]", "C two 12 0 start@0", "c start 4 7")
                .tables());
    Estimate estimate =
        both.estimate(
            TINY85,
            List.of(Tables.portable("main[]"), Tables.portable("one[]"), Tables.portable("two[]")),
            List.of());
    assertEquals(52 + 20 + 10 + 3 + 12 + 4, estimate.flash().likely());
    assertEquals(2 + 2 + 2 + 7, estimate.stack());
  }

  @Test
  void unmeasuredTraits_areCorrectedByTheSameDifferenceElsewhere() {
    Tables tables = Tables.small().portable("average[kind=block,sum=u32]", "C average_add 62 2");
    tables.portable("average[kind=moving,sum=u32]", "C average_add 88 2", "Z average_window 16 0");
    tables.portable("average[kind=median,sum=s16]", "C average_add 100 2", "Z average_window 16 0");
    // From s16 to u32: 22 more where it is block, 24 where it is moving.
    List<Module> plan =
        List.of(
            Tables.portable("main[]"),
            ASK,
            Tables.portable("average[kind=median,sum=u32]"),
            PLAN.get(3));
    Estimate estimate = new Sizing(tables.tables()).estimate(TINY85, plan, BUFFERS);
    Part average = estimate.modules().get(3);
    assertEquals(Grade.MODELLED, estimate.grade());
    assertTrue(average.flash() >= 110 && average.flash() <= 124, average::toString);
    assertTrue(estimate.flash().high() - estimate.flash().low() > 4, estimate::toString);
  }

  @Test
  void moduleThatNobodyMeasured_leavesOnlyTheLimits() {
    List<Module> plan = List.of(Tables.portable("main[]"), Tables.portable("unheard[]"));
    assertEquals(Grade.LISTED, sizing.estimate(TINY85, plan, List.of()).grade());
  }

  @Test
  void coreWithoutTables_borrowsThoseOfTheNearest() {
    Target tiny25 = Tables.target("attiny25");
    assertEquals("avr25-sp8", tiny25.codeClass());
    Estimate estimate = sizing.estimate(tiny25, PLAN, BUFFERS);
    assertEquals(Grade.MODELLED, estimate.grade());
    assertTrue(estimate.flash().high() - estimate.flash().likely() >= 30, estimate::toString);
  }

  @Test
  void targetWithoutStartUp_getsItsVectorsAndTheCodeOfItsClass() {
    Target tiny45 = Tables.target("attiny45");
    Estimate estimate = sizing.estimate(tiny45, PLAN, BUFFERS);
    assertEquals(tiny45.vectors() * tiny45.vectorBytes() + 22, estimate.modules().get(0).flash());
    assertEquals(Grade.MODELLED, estimate.grade());
  }

  @Test
  void tableThatLacksAHelper_isABugAndSaysWhich() {
    Sizing broken =
        new Sizing(Tables.small().portable("main[]", "C main 20 1 __divmodhi4@0").tables());
    List<Module> plan = List.of(Tables.portable("main[]"));
    String message =
        assertThrows(IllegalStateException.class, () -> broken.estimate(TINY85, plan, List.of()))
            .getMessage();
    assertEquals("The cost tables of avr25 lack __divmodhi4.", message);
  }

  @Test
  void bufferThatWasNotMeasured_isABugAndSaysWhich() {
    List<Buffer> buffers = List.of(new Buffer("line", "ask", "ask_line", 12));
    String message =
        assertThrows(IllegalArgumentException.class, () -> sizing.estimate(TINY85, PLAN, buffers))
            .getMessage();
    assertEquals("`ask[ask=yes]` was measured without the buffer `ask_line`.", message);
  }
}
