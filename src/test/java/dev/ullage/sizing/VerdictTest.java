package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.firmware.Buffer;
import dev.ullage.loop.Bring;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Estimate.Interval;
import dev.ullage.sizing.Estimate.Part;
import dev.ullage.sizing.Verdict.Kind;
import dev.ullage.target.Target;
import java.util.List;
import org.junit.jupiter.api.Test;

class VerdictTest {
  private static final Target TINY25 = Tables.target("attiny25"); // 2048 B of flash, 128 of RAM
  private static final Bring NOTHING = new Bring(0, 0, 0);
  private static final Margin MARGIN = new Margin(5, 16);

  @Test
  void tooManyBuffers_areOverInBytesOfRam() {
    Verdict verdict =
        Sizing.verdict(TINY25, estimate(900, 71, 28, 40), NOTHING, MARGIN, "buffered");
    assertEquals(
        new Verdict(
            Kind.OVER,
            "ram",
            "buffered bus driver 71 B + averaging window 16 B + other state 12 B + stack 40 B"
                + " + margin 16 B = 155 B, but 128 B of RAM"),
        verdict);
  }

  @Test
  void whatNeedsTheMargin_isTight() {
    assertEquals(Kind.FITS, ram(128 - 16).kind());
    assertEquals(Kind.TIGHT, ram(128 - 15).kind());
    assertEquals(Kind.TIGHT, ram(128).kind());
    assertEquals(Kind.OVER, ram(129).kind());
    assertEquals("ram", ram(128).limiting());
  }

  /** 5 percent of 2048 bytes, rounded up, is 103. */
  @Test
  void flashIntervalThatStraddlesTheLimit_isTight() {
    assertEquals(Kind.FITS, flash(2048 - 103 - 10, 10).kind());
    assertEquals(Kind.TIGHT, flash(2048 - 103 - 9, 10).kind());
    assertEquals(Kind.TIGHT, flash(2048 + 10, 10).kind());
    assertEquals(Kind.OVER, flash(2048 + 11, 10).kind());
    assertEquals("flash", flash(2048 + 11, 10).limiting());
  }

  @Test
  void whatTheUserBrings_countsInBothMemories() {
    Verdict verdict =
        Sizing.verdict(TINY25, estimate(900, 0, 16, 20), new Bring(2000, 7, 9), MARGIN, "bitbang");
    assertEquals(Kind.OVER, verdict.kind());
    assertEquals(
        "bitbang bus driver 400 B + average 300 B + start-up 150 B + the rest 50 B"
            + " + your own code 2000 B + margin 103 B = 3003 B (2993 to 3013),"
            + " but 2048 B of flash",
        verdict.reason());
  }

  @Test
  void whatFits_isLimitedByTheSmallerShareLeft() {
    Verdict verdict = Sizing.verdict(TINY25, estimate(900, 0, 16, 20), NOTHING, MARGIN, "bitbang");
    assertEquals(
        new Verdict(
            Kind.FITS,
            "flash",
            "bitbang bus driver 400 B + average 300 B + start-up 150 B + the rest 50 B"
                + " + margin 103 B = 1003 B (993 to 1013) of the 2048 B of flash"),
        verdict);
    assertEquals(
        new Headroom(2048 - 910 - 103, 128 - 36 - 16),
        Headroom.of(TINY25, estimate(900, 0, 16, 20), NOTHING, MARGIN));
  }

  private static Verdict ram(int needed) {
    return Sizing.verdict(TINY25, estimate(900, 0, 16, needed - 16), NOTHING, MARGIN, "bitbang");
  }

  private static Verdict flash(int likely, int either) {
    Estimate estimate = estimate(likely, 0, 16, 10);
    Estimate wider =
        new Estimate(
            estimate.grade(),
            new Interval(likely - either, likely, likely + either),
            estimate.staticRam(),
            estimate.stack(),
            estimate.modules(),
            estimate.buffers(),
            estimate.stackPath());
    return Sizing.verdict(TINY25, wider, NOTHING, MARGIN, "bitbang");
  }

  private static Estimate estimate(int flash, int busRam, int otherRam, int stack) {
    return new Estimate(
        Grade.MEASURED,
        new Interval(flash - 10, flash, flash + 10),
        busRam + otherRam,
        stack,
        List.of(
            new Part("start-up", 150, 0),
            new Part("average", 300, 16),
            new Part("bus_buffered", 400, busRam),
            new Part("main", flash - 850, otherRam - 16)),
        List.of(
            new Buffer("averaging window", "average", "average_window", 16),
            new Buffer("bus send", "bus_buffered", "bus_sent", 32)),
        List.of());
  }
}
