package dev.ullage.emit;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;

/** A disk that lets a number of changes pass, and then fails in one of two ways. */
final class FailingDisk implements Disk {
  private final Disk disk = new RealDisk();
  private final boolean kill;
  private int left;

  private FailingDisk(int changes, boolean kill) {
    this.left = changes;
    this.kill = kill;
  }

  /** As if the process ended there: nothing is changed from then on, not even to clean up. */
  static FailingDisk killedAfter(int changes) {
    return new FailingDisk(changes, true);
  }

  /** One change is refused; those after it pass again. */
  static FailingDisk refusingAfter(int changes) {
    return new FailingDisk(changes, false);
  }

  /** Not an exception that anything catches. */
  static final class Killed extends Error {
    private static final long serialVersionUID = 1L;
  }

  /** True if more changes were asked for than may pass. */
  boolean hasFailed() {
    return left < 0;
  }

  @Override
  public void createFolder(Path folder) throws IOException {
    count();
    disk.createFolder(folder);
  }

  @Override
  public void createFile(Path file, byte[] bytes) throws IOException {
    if (left == 0 && kill) {
      disk.createFile(file, Arrays.copyOf(bytes, bytes.length / 2));
    }
    count();
    disk.createFile(file, bytes);
  }

  @Override
  public void move(Path from, Path to) throws IOException {
    count();
    disk.move(from, to);
  }

  @Override
  public void delete(Path path) throws IOException {
    count();
    disk.delete(path);
  }

  private void count() throws IOException {
    left--;
    if (left < 0 && kill) {
      throw new Killed();
    }
    if (left == -1) {
      throw new IOException("No space left on device");
    }
  }
}
