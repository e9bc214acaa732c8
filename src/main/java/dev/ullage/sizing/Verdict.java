package dev.ullage.sizing;

/**
 * Whether a plan fits a target.
 *
 * @param limiting {@code flash}, {@code ram}, or what is lacking: {@code pin}, {@code peripheral},
 *     {@code clock}, {@code voltage}; {@code port} where nothing is known but limits
 * @param reason one sentence in bytes, without a full stop
 */
public record Verdict(Kind kind, String limiting, String reason) {

  /** The four answers. */
  public enum Kind {
    /** Fits with the margin. */
    FITS,
    /** Needs the margin, or the interval straddles the limit. */
    TIGHT,
    /** Does not fit. */
    OVER,
    /** Something other than memory is missing. */
    LACKS
  }
}
