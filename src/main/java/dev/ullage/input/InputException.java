package dev.ullage.input;

import java.util.List;
import java.util.stream.Collectors;

/**
 * An input file is wrong: a mistake of its writer, not of this tool. Holds every finding of the
 * file, in the order of its lines.
 */
public final class InputException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<Finding> findings;

  /**
   * @throws IllegalArgumentException if there is no finding
   */
  public InputException(List<Finding> findings) {
    super(findings.stream().map(Finding::text).collect(Collectors.joining("\n")));
    if (findings.isEmpty()) {
      throw new IllegalArgumentException("An input exception needs a finding.");
    }
    this.findings = List.copyOf(findings);
  }

  public InputException(Finding finding) {
    this(List.of(finding));
  }

  /** At least one, in the order of the lines. */
  public List<Finding> findings() {
    return findings;
  }
}
