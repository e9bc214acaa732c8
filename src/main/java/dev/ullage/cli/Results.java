package dev.ullage.cli;

import static java.nio.file.StandardOpenOption.CREATE_NEW;
import static java.nio.file.StandardOpenOption.WRITE;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.util.Optional;
import java.util.UUID;

/** Where a result goes: to standard output, or to a file that is replaced as a whole. */
final class Results {
  private final Surroundings around;

  Results(Surroundings around) {
    this.around = around;
  }

  /**
   * @param text the whole result
   * @param file where to write it; standard output if empty
   * @throws IOException if the file cannot be written; it is then as it was
   */
  void deliver(String text, Optional<Path> file) throws IOException {
    if (file.isEmpty()) {
      around.out().print(text);
      return;
    }
    Path path = file.get();
    if (Files.isDirectory(path)) {
      throw new IOException("it is a folder");
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      Files.writeString(path, text); // a pipe or a device: nothing there to be replaced
    } else {
      replace(path, text);
    }
  }

  /** The new text is written beside the old one, under a name that nobody can have laid out. */
  private static void replace(Path path, String text) throws IOException {
    Path whole = whole(path);
    Path part = whole.resolveSibling(".ullage-" + UUID.randomUUID() + ".part");
    try {
      Files.write(part, text.getBytes(StandardCharsets.UTF_8), CREATE_NEW, WRITE);
      keepPermissions(whole, part);
      Files.move(part, whole, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /** What is to be replaced: behind a link the file that it leads to. */
  private static Path whole(Path path) throws IOException {
    if (Files.exists(path)) {
      if (!Files.isWritable(path)) {
        throw new AccessDeniedException(path.toString());
      }
      return path.toRealPath();
    }
    if (Files.isSymbolicLink(path)) {
      throw new IOException("it is a link that leads nowhere");
    }
    return path.toAbsolutePath();
  }

  private static void keepPermissions(Path whole, Path part) throws IOException {
    PosixFileAttributeView before = Files.getFileAttributeView(whole, PosixFileAttributeView.class);
    if (before != null && Files.exists(whole)) {
      Files.setPosixFilePermissions(part, before.readAttributes().permissions());
    }
  }
}
