package dev.ullage.input;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Collects what is wrong with one file, so that a run shows every mistake and not the first only.
 */
public final class Findings {
  private final String file;
  private final List<Finding> found = new ArrayList<>();
  private final Set<String> doubted = new HashSet<>();

  /**
   * @param file name as the user gave it
   */
  public Findings(String file) {
    this.file = file;
  }

  /** Adds a finding without a known cure. */
  public void add(int line, int column, String key, String found, String expected) {
    add(line, column, key, found, expected, Optional.empty());
  }

  /** Adds a finding whose mistake is a known one. */
  public void add(int line, int column, String key, String found, String expected, String cure) {
    add(line, column, key, found, expected, Optional.of(cure));
  }

  /** Adds a finding whose mistake may be a known one. */
  public void add(
      int line, int column, String key, String found, String expected, Optional<String> cure) {
    this.found.add(new Finding(file, line, column, key, found, expected, cure));
  }

  /** Says that a key was most likely meant by another finding, so that it counts as found wrong. */
  public void doubt(String key) {
    doubted.add(key);
  }

  /**
   * True if something is wrong with the key, with a group that holds it or with a key inside it:
   * its value is then a stand-in, and nothing should be concluded from it.
   */
  public boolean concern(String key) {
    for (Finding finding : found) {
      if (touch(finding.key(), key)) {
        return true;
      }
    }
    for (String doubt : doubted) {
      if (touch(doubt, key)) {
        return true;
      }
    }
    return false;
  }

  private static boolean touch(String one, String other) {
    return contains(one, other) || contains(other, one);
  }

  private static boolean contains(String outer, String inner) {
    return inner.equals(outer)
        || inner.length() > outer.length()
            && inner.startsWith(outer)
            && (inner.charAt(outer.length()) == '.' || inner.charAt(outer.length()) == '[');
  }

  public boolean isEmpty() {
    return found.isEmpty();
  }

  /** In the order of the file. */
  public List<Finding> sorted() {
    return found.stream()
        .sorted(Comparator.comparingInt(Finding::line).thenComparingInt(Finding::column))
        .toList();
  }

  /**
   * @throws InputException with all findings, if there is any
   */
  public void throwIfAny() {
    if (!found.isEmpty()) {
      throw new InputException(sorted());
    }
  }
}
