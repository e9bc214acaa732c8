package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Estimate.Part;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Modules found in the cost tables and linked, for one target. Counts and buffers are all that is
 * left to put in, so many loops can be estimated from it.
 */
public final class Resolved {
  static final String START_UP = "start-up";
  static final String HELPERS = "run-time helpers";

  private final Linking linking;
  private final List<Neighbour> rows;
  private final int startUp;
  private final Grade grade;
  private final boolean sibling;
  private final int spread;

  Resolved(Linking linking, List<Neighbour> rows, Shelf shelf) {
    this.linking = linking;
    this.rows = rows;
    this.startUp = shelf.startUp() + linking.padding();
    this.sibling = !shelf.ownClass();
    boolean exact = true;
    int doubt = 0;
    for (Neighbour row : rows) {
      exact &= row.exact();
      doubt += row.spread();
    }
    this.spread = doubt;
    this.grade = exact && shelf.ownClass() && shelf.ownStartUp() ? Grade.MEASURED : Grade.MODELLED;
  }

  /**
   * The bytes of these modules.
   *
   * @param modules those that this was resolved for, in the same order; their counts may differ
   * @param buffers those of the plan
   * @throws IllegalArgumentException where a module of the same traits was measured without one of
   *     its buffers
   */
  public Estimate estimate(List<Module> modules, List<Buffer> buffers) {
    int count = modules.size();
    Layout.Effect effect =
        linking
            .layout()
            .map(layout -> layout.effect(modules, buffers))
            .orElseGet(() -> new Layout.Effect(new int[count + 1], 0, 0));
    List<Part> parts = new ArrayList<>(count + 2);
    parts.add(new Part(START_UP, startUp + effect.flashLost(), effect.ramLost()));
    for (int i = 0; i < count; i++) {
      parts.add(part(modules.get(i), i, buffers, effect.saved()[i]));
    }
    Linking.Kept helpers = linking.helpers();
    if (helpers.flash > 0 || helpers.ram > 0) {
      parts.add(new Part(HELPERS, helpers.flash - effect.saved()[count], helpers.ram));
    }
    int flash = 0;
    int ram = 0;
    for (Part part : parts) {
      flash += part.flash();
      ram += part.ram();
    }
    return new Estimate(
        grade,
        Policy.interval(flash, spread + doubtOfLinking(), sibling),
        ram,
        linking.stack(),
        parts,
        buffers,
        linking.stackPath());
  }

  private int doubtOfLinking() {
    return linking.layout().filter(Layout::shortens).isPresent() ? Policy.SHORTENED_BYTES : 0;
  }

  private Part part(Module module, int place, List<Buffer> buffers, int saved) {
    Linking.Kept kept = linking.kept().get(place);
    Neighbour row = rows.get(place);
    int flash = kept.flash + row.flash() - saved;
    int ram = kept.ram + row.ram();
    if (!module.counts().isEmpty()) {
      flash += steps(kept.flashSteps, module);
      ram += steps(kept.ramSteps, module);
    }
    for (Buffer buffer : buffers) {
      if (buffer.module().equals(module.name())) {
        ram += buffer.bytes() - measured(kept, row, buffer);
      }
    }
    return new Part(module.name(), Math.max(0, flash), Math.max(0, ram));
  }

  private static int steps(Map<String, Integer> steps, Module module) {
    int sum = 0;
    for (Map.Entry<String, Integer> step : steps.entrySet()) {
      sum += step.getValue() * module.counts().getOrDefault(step.getKey(), 0);
    }
    return sum;
  }

  private static int measured(Linking.Kept kept, Neighbour row, Buffer buffer) {
    Integer bytes = kept.variables.get(buffer.symbol());
    if (bytes == null && row.exact()) {
      throw new IllegalArgumentException(
          "`" + row.row().key() + "` was measured without the buffer `" + buffer.symbol() + "`.");
    }
    return bytes == null ? 0 : bytes;
  }
}
