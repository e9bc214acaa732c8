package dev.ullage.emit;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Everything that one loop on one target becomes, in memory. */
public record Emission(List<EmittedFile> files, Origin origin) {

  /**
   * @throws IllegalArgumentException if two files have the same path on a system that does not tell
   *     case apart, or one would be a folder of another
   */
  public Emission {
    files = List.copyOf(files);
    Set<String> paths = new HashSet<>();
    for (EmittedFile file : files) {
      if (!paths.add(lower(file.path()))) {
        throw new IllegalArgumentException("Emitted twice: `" + file.path() + "`.");
      }
    }
    for (EmittedFile file : files) {
      String path = lower(file.path());
      for (int cut = path.lastIndexOf('/'); cut > 0; cut = path.lastIndexOf('/', cut - 1)) {
        if (paths.contains(path.substring(0, cut))) {
          throw new IllegalArgumentException("In a file: `" + file.path() + "`.");
        }
      }
    }
  }

  Manifest manifest() {
    return Manifest.of(this);
  }

  private static String lower(String path) {
    return path.toLowerCase(Locale.ROOT);
  }
}
