package dev.ullage.report;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Lack;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.util.Optional;

/**
 * What one loop comes to on one part.
 *
 * @param target a part, with a port or without one
 * @param plan empty where the part lacks something, or has no port
 * @param estimate empty where there is no plan, or nothing was measured that comes near
 * @param headroom empty where there is no estimate
 */
public record Assessment(
    Part target,
    Verdict verdict,
    Optional<Firmware> plan,
    Optional<Estimate> estimate,
    Optional<Headroom> headroom) {

  /**
   * Plans the loop on the part and holds the estimate against its memories; without a port, says
   * what its limits rule out.
   */
  public static Assessment of(Loop loop, Part part, Sizing sizing) {
    return part instanceof Target target
        ? of(Plan.of(loop, target), target, sizing)
        : of(loop, (ListedPart) part);
  }

  /** The same for a part without a port. */
  static Assessment of(Loop loop, ListedPart part) {
    return unplanned(part, Sizing.verdict(loop, part));
  }

  /** As above, with a plan for that target. */
  static Assessment of(Plan plan, Target target, Sizing sizing) {
    return plan instanceof Plan.Possible possible
        ? of(possible.firmware(), sizing)
        : unplanned(target, lacks(((Plan.Impossible) plan).lack()));
  }

  private static Verdict lacks(Lack lack) {
    return new Verdict(Verdict.Kind.LACKS, lack.resource(), lack.reason());
  }

  private static Assessment unplanned(Part part, Verdict verdict) {
    return new Assessment(part, verdict, Optional.empty(), Optional.empty(), Optional.empty());
  }

  private static Assessment of(Firmware plan, Sizing sizing) {
    Loop loop = plan.loop();
    Target target = plan.target();
    Estimate estimate = sizing.estimate(target, plan.modules(), plan.buffers());
    Verdict verdict =
        Sizing.verdict(
            target, estimate, loop.bring(), loop.margin(), Style.word(plan.bus().driver()));
    Optional<Estimate> known =
        Optional.of(estimate).filter(e -> e.grade() != Estimate.Grade.LISTED);
    return new Assessment(
        target,
        verdict,
        Optional.of(plan),
        known,
        known.map(e -> Headroom.of(target, e, loop.bring(), loop.margin())));
  }

  /** The driver that was chosen. */
  public Optional<String> busDriver() {
    return plan.map(firmware -> Style.word(firmware.bus().driver()));
  }

  /** How the figures are known; where there are none, only the limits of the part are. */
  public Estimate.Grade grade() {
    return estimate.map(Estimate::grade).orElse(Estimate.Grade.LISTED);
  }

  /** True where the loop can be built for the target and run there. */
  public boolean holds() {
    return plan.isPresent() && mayHold();
  }

  /** The same, and true where nothing rules it out: of a part without a port no more is known. */
  public boolean mayHold() {
    return verdict.kind() == Verdict.Kind.FITS || verdict.kind() == Verdict.Kind.TIGHT;
  }

  /** True where there is no port for the part, so that its limits are all that is known. */
  public boolean isListedOnly() {
    return target instanceof ListedPart;
  }
}
