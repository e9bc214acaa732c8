package dev.ullage.slim;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** At most one change for each aspect; the changes in the order in which they are made. */
record Choice(Map<Aspect, Change> byAspect) {
  static final Choice NOTHING = new Choice(Map.of());

  Choice {
    byAspect =
        Collections.unmodifiableMap(
            byAspect.isEmpty() ? new EnumMap<>(Aspect.class) : new EnumMap<>(byAspect));
  }

  List<Change> changes() {
    return new ArrayList<>(byAspect.values());
  }

  /** The same, but with this change of the aspect, or none of it. */
  Choice with(Aspect aspect, Optional<Change> change) {
    Map<Aspect, Change> other = new EnumMap<>(Aspect.class);
    other.putAll(byAspect);
    other.remove(aspect);
    change.ifPresent(c -> other.put(aspect, c));
    return new Choice(other);
  }

  int weight() {
    return byAspect.values().stream().mapToInt(Change::weight).sum();
  }

  /** True if it changes everything that the other does, and perhaps more. */
  boolean touchesAllOf(Choice other) {
    return byAspect.keySet().containsAll(other.byAspect.keySet());
  }
}
