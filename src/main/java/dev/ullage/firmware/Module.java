package dev.ullage.firmware;

import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * One unit of emitted firmware: a source file in one variant.
 *
 * <p>Two modules with the same key compile to the same bytes on the same core (on the same family,
 * for a port module), whatever their constants are: constants are hidden from the optimiser, and
 * what cannot be hidden is a trait.
 *
 * @param name {@code average}
 * @param scope what its code depends on besides its traits
 * @param traits everything that decides what its code costs
 * @param forms what changes its code, but not what it costs: which of two levels switches a lamp on
 * @param counts what its code grows with, in equal steps
 */
public record Module(
    String name,
    Scope scope,
    SortedMap<String, String> traits,
    SortedMap<String, String> forms,
    SortedMap<String, Integer> counts) {

  public Module {
    traits = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(traits));
    forms = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(forms));
    counts = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(counts));
  }

  /** What a module's code depends on. */
  public enum Scope {
    /** The core's code class only. */
    PORTABLE,
    /** The registers of the family too. */
    PORT
  }

  /** The name under which its cost is kept: {@code average[kind=moving,sum=s16]}. */
  public String key() {
    StringBuilder key = new StringBuilder(name).append('[');
    String separator = "";
    for (Map.Entry<String, String> trait : traits.entrySet()) {
      key.append(separator).append(trait.getKey()).append('=').append(trait.getValue());
      separator = ",";
    }
    return key.append(']').toString();
  }
}
