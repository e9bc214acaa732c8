package dev.ullage.emit;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * A folder inside the emitted one that holds the new texts until they are moved into place. Its
 * manifest is written last, so that one with a manifest is complete, and moved last, so that one
 * that an interrupted writer left behind tells which texts are ours.
 */
record Staging(Path folder, Disk disk) {
  private static final String PREFIX = ".ullage-staging-";

  /** Those that interrupted writers left in a folder. */
  static List<Staging> allIn(Path root, Disk disk) throws IOException {
    try (Stream<Path> entries = Files.list(root)) {
      return entries.filter(Staging::isStaging).map(folder -> new Staging(folder, disk)).toList();
    }
  }

  static boolean isStaging(Path path) {
    return path.getFileName().toString().startsWith(PREFIX)
        && Files.isDirectory(path, NOFOLLOW_LINKS);
  }

  /** Writes the new texts, and then the manifest. */
  static Staging fill(Path root, List<WritePlan.Step> steps, Manifest manifest, Disk disk)
      throws IOException {
    Staging staging = new Staging(root.resolve(PREFIX + UUID.randomUUID()), disk);
    try {
      disk.createFolder(staging.folder);
      for (int i = 0; i < steps.size(); i++) {
        if (steps.get(i) instanceof WritePlan.Step.Put put) {
          disk.createFile(staging.text(i), put.bytes());
        }
      }
      byte[] json = manifest.toJson().getBytes(StandardCharsets.UTF_8);
      disk.createFile(staging.manifestFile(), json);
      return staging;
    } catch (IOException e) {
      staging.discardAfter(e);
      throw e;
    }
  }

  /** Where the text of the step with this number lies. */
  Path text(int step) {
    return folder.resolve(Integer.toString(step));
  }

  Path manifestFile() {
    return folder.resolve(Manifest.FILE);
  }

  /** Empty if the writer was interrupted before it could change anything. */
  Optional<Manifest> manifest() throws IOException {
    try {
      return new FolderView(folder).manifest();
    } catch (InputException cutShort) {
      return Optional.empty();
    }
  }

  void discard() throws IOException {
    if (!Files.isDirectory(folder, NOFOLLOW_LINKS)) {
      return;
    }
    List<Path> files;
    try (Stream<Path> entries = Files.list(folder)) {
      files = entries.toList();
    }
    for (Path file : files) {
      disk.delete(file);
    }
    disk.delete(folder);
  }

  private void discardAfter(IOException cause) {
    try {
      discard();
    } catch (IOException e) {
      cause.addSuppressed(e);
    }
  }
}
