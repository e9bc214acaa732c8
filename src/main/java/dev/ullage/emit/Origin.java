package dev.ullage.emit;

/**
 * What a folder was emitted from.
 *
 * @param loop name of the loop, as the user wrote it
 * @param target name of the part
 */
public record Origin(String loop, String target, Versions versions, Figures estimate) {

  /** Of the tool and of its templates. */
  public record Versions(String ullage, String templates) {}

  /** The estimate, in bytes. */
  public record Figures(int flashLow, int flashLikely, int flashHigh, int ramStatic, int stack) {}
}
