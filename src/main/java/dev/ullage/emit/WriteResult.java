package dev.ullage.emit;

import java.util.List;

/**
 * What became of each file, as paths below the folder.
 *
 * @param written new, or in the place of an older text of ours
 * @param unchanged there already with the same text
 * @param created the user's from now on
 * @param kept changed by the user: stays, and the new text lies beside it
 * @param removed no longer emitted, and not changed by the user
 * @param left no longer emitted, but changed by the user: stays, and is the user's from now on
 */
public record WriteResult(
    List<String> written,
    List<String> unchanged,
    List<String> created,
    List<Kept> kept,
    List<String> removed,
    List<String> left) {

  public WriteResult {
    written = List.copyOf(written);
    unchanged = List.copyOf(unchanged);
    created = List.copyOf(created);
    kept = List.copyOf(kept);
    removed = List.copyOf(removed);
    left = List.copyOf(left);
  }

  /** A file of the user's and the new text beside it. */
  public record Kept(String path, String newPath) {}

  /** True if the user has something to merge or to look at. */
  public boolean needsAttention() {
    return !kept.isEmpty() || !left.isEmpty();
  }
}
