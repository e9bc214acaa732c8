package dev.ullage.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Optional;

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

  private static void replace(Path path, String text) throws IOException {
    Path whole = Files.exists(path) ? path.toRealPath() : path.toAbsolutePath();
    Path part = whole.resolveSibling(whole.getFileName() + ".part" + ProcessHandle.current().pid());
    try {
      Files.write(part, text.getBytes(StandardCharsets.UTF_8));
      Files.move(part, whole, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
