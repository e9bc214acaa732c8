package dev.ullage.emit;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;
import static java.nio.file.StandardOpenOption.CREATE;
import static java.nio.file.StandardOpenOption.WRITE;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.ThreadLocalRandom;

/** Keeps a second writer out of a folder. The system lets go of it when a process dies. */
final class FolderLock implements AutoCloseable {
  private static final String NAME = ".ullage.lock";

  /** The locked byte lies beyond all that is written. */
  private static final int LOCKED_BYTE = 1 << 20;

  private final Path file;
  private final FileChannel channel;
  private final Disk disk;

  private FolderLock(Path file, FileChannel channel, Disk disk) {
    this.file = file;
    this.channel = channel;
    this.disk = disk;
  }

  static FolderLock of(Path root, Disk disk) throws IOException {
    Path file = root.resolve(NAME);
    if (Files.exists(file, NOFOLLOW_LINKS) && !Files.isRegularFile(file, NOFOLLOW_LINKS)) {
      throw new FileSystemException(file.toString(), null, "no plain file"); // to open a pipe waits
    }
    FileChannel channel = FileChannel.open(file, CREATE, WRITE, NOFOLLOW_LINKS);
    try {
      if (!isOurs(file, channel, disk)) {
        throw new FileSystemException(root.toString(), null, "another emission is writing there");
      }
      return new FolderLock(file, channel, disk);
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  static boolean isLock(Path path) {
    return path.endsWith(NAME);
  }

  /** A locked file may have been deleted by its last owner: then the name leads elsewhere. */
  private static boolean isOurs(Path file, FileChannel channel, Disk disk) throws IOException {
    try {
      if (channel.tryLock(LOCKED_BYTE, 1, false) == null) {
        return false;
      }
    } catch (OverlappingFileLockException e) {
      return false;
    }
    // Told by its size: to open and close the file once more would let go of the lock (POSIX).
    int size = ThreadLocalRandom.current().nextInt(1, LOCKED_BYTE);
    try {
      channel.truncate(0).write(ByteBuffer.wrap(new byte[1]), size - 1);
    } catch (IOException full) {
      disk.delete(file);
      throw full;
    }
    return Files.exists(file, NOFOLLOW_LINKS) && Files.size(file) == size;
  }

  @Override
  public void close() throws IOException {
    try {
      disk.delete(file);
    } finally {
      channel.close();
    }
  }
}
