package dev.ullage.firmware;

import dev.ullage.loop.Loop;
import dev.ullage.target.Target;

/** What came of planning a loop on a target: firmware, or the reason why there can be none. */
public sealed interface Plan {

  /** The loop can run there, memory permitting. */
  record Possible(Firmware firmware) implements Plan {}

  /** Something other than memory is missing. */
  record Impossible(Lack lack) implements Plan {}

  /** Plans a loop on a target. */
  static Plan of(Loop loop, Target target) {
    return Planner.plan(new Workings(loop), target, target.pins());
  }
}
