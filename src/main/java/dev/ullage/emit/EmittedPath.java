package dev.ullage.emit;

import java.util.regex.Pattern;

/**
 * The rule for paths of emitted files: it holds for what we write and for what a manifest lists.
 */
final class EmittedPath {
  /** No name starts with a dot (ours do) or a hyphen (an option to most commands). */
  private static final Pattern NAMES =
      Pattern.compile("[A-Za-z0-9_][A-Za-z0-9_.+-]{0,63}(/[A-Za-z0-9_][A-Za-z0-9_.+-]{0,63}){0,5}");

  /** The names that a path may not end in: a new text beside a changed file has them. */
  static final String NEW = ".new";

  private EmittedPath() {}

  static boolean isValid(String path) {
    return NAMES.matcher(path).matches() && !path.endsWith(NEW) && !path.equals(Manifest.FILE);
  }
}
