package dev.ullage.emit;

import java.io.IOException;
import java.nio.file.Path;

/** Every change that a writer makes to a disk goes through here, so that a test can stop it. */
interface Disk {
  /** Creates a folder whose parent exists. */
  void createFolder(Path folder) throws IOException;

  /** Creates a file that is not there yet. */
  void createFile(Path file, byte[] bytes) throws IOException;

  /** Puts a file in the place of another, or where none is, in one step. */
  void move(Path from, Path to) throws IOException;

  /** Deletes a file or an empty folder; good if it is gone already. */
  void delete(Path path) throws IOException;
}
