package dev.ullage.emit;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** Hashes of the texts that we know to be ours, by path. */
final class Known {
  private final Map<String, Set<String>> hashes = new HashMap<>();

  /**
   * @param manifests the folder's, and those of interrupted emissions into it
   */
  Known(List<Manifest> manifests) {
    for (Manifest manifest : manifests) {
      manifest
          .hashes()
          .forEach((path, hash) -> hashes.computeIfAbsent(path, p -> new TreeSet<>()).add(hash));
    }
  }

  boolean isOurs(String path, String hash) {
    return hashes.getOrDefault(path, Set.of()).contains(hash);
  }

  Set<String> paths() {
    return new TreeSet<>(hashes.keySet());
  }
}
