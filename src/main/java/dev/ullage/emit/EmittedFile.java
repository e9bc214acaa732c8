package dev.ullage.emit;

import java.nio.charset.StandardCharsets;

/**
 * One file of the emitted folder.
 *
 * @param path below the folder, with {@code /} between names
 * @param text with {@code \n} at line ends; written as UTF-8
 * @param policy what happens when the file is already there
 */
public record EmittedFile(String path, String text, Policy policy) {

  /**
   * @throws IllegalArgumentException if the path could leave the folder or clash with a file of our
   *     own
   */
  public EmittedFile {
    if (!EmittedPath.isValid(path)) {
      throw new IllegalArgumentException("Not a path for an emitted file: `" + path + "`.");
    }
  }

  /** What happens to a file that is already there. */
  public enum Policy {
    /** Replaced unless the user changed it. */
    REPLACE,
    /** The user's from the start: created where it is missing, never touched again. */
    ONCE
  }

  byte[] bytes() {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  String hash() {
    return Hash.of(bytes());
  }
}
