package dev.ullage.emit;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;

/** What is in a folder now. Never looks through a symbolic link. */
record FolderView(Path root) {
  private static final int MANIFEST_MAX_BYTES = 1 << 20;

  /**
   * SHA-256 of a file, or empty where there is none.
   *
   * @throws InputException if something else is in the way: a link, a folder, a device
   */
  Optional<String> hash(String path) throws IOException {
    refuseObstacles(path);
    Path file = root.resolve(path);
    if (!Files.exists(file, NOFOLLOW_LINKS)) {
      return Optional.empty();
    }
    if (!Files.isRegularFile(file, NOFOLLOW_LINKS)) {
      throw inTheWay(file, "a plain file");
    }
    try (InputStream bytes = Files.newInputStream(file, NOFOLLOW_LINKS)) {
      return Optional.of(Hash.of(bytes));
    }
  }

  /** The manifest of the folder itself. */
  Optional<Manifest> manifest() throws IOException {
    if (hash(Manifest.FILE).isEmpty()) {
      return Optional.empty();
    }
    Path file = root.resolve(Manifest.FILE);
    if (Files.size(file) > MANIFEST_MAX_BYTES) {
      throw new InputException(
          finding(file, "larger", "at most " + MANIFEST_MAX_BYTES + " bytes", ""));
    }
    return Optional.of(ManifestReader.read(file.toString(), Files.readAllBytes(file)));
  }

  /** True if nothing is there but what an interrupted writer leaves behind. */
  boolean isEmpty() throws IOException {
    try (Stream<Path> entries = Files.list(root)) {
      return entries.allMatch(entry -> FolderLock.isLock(entry) || Staging.isStaging(entry));
    }
  }

  static Finding finding(Path path, String found, String expected, String cure) {
    return new Finding(
        path.toString(), 0, 0, "", found, expected, Optional.of(cure).filter(c -> !c.isEmpty()));
  }

  private void refuseObstacles(String path) {
    Path folder = root;
    for (Path name : Path.of(path)) {
      if (!folder.equals(root)
          && Files.exists(folder, NOFOLLOW_LINKS)
          && !Files.isDirectory(folder, NOFOLLOW_LINKS)) {
        throw inTheWay(folder, "a folder");
      }
      folder = folder.resolve(name);
    }
  }

  private static InputException inTheWay(Path path, String expected) {
    String found =
        Files.isSymbolicLink(path)
            ? "a symbolic link"
            : Files.isDirectory(path) ? "a folder" : "something else";
    return new InputException(finding(path, found, expected, "move it away; nothing was written"));
  }
}
