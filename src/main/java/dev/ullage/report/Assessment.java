package dev.ullage.report;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.Optional;

/**
 * What one loop comes to on one target.
 *
 * @param plan empty where the target lacks something
 * @param estimate empty where there is no plan, or nothing was measured that comes near
 * @param headroom empty where there is no estimate
 */
public record Assessment(
    Target target,
    Verdict verdict,
    Optional<Firmware> plan,
    Optional<Estimate> estimate,
    Optional<Headroom> headroom) {

  /** Plans the loop on the target and holds the estimate against its memories. */
  public static Assessment of(Loop loop, Target target, Sizing sizing) {
    return of(Plan.of(loop, target), target, sizing);
  }

  /** As above, with a plan for that target. */
  static Assessment of(Plan plan, Target target, Sizing sizing) {
    return plan instanceof Plan.Possible possible
        ? of(possible.firmware(), sizing)
        : lacking(target, (Plan.Impossible) plan);
  }

  private static Assessment lacking(Target target, Plan.Impossible plan) {
    Verdict verdict = new Verdict(Verdict.Kind.LACKS, plan.lack().resource(), plan.lack().reason());
    return new Assessment(target, verdict, Optional.empty(), Optional.empty(), Optional.empty());
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
    return verdict.kind() == Verdict.Kind.FITS || verdict.kind() == Verdict.Kind.TIGHT;
  }
}
