package dev.ullage.emit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** The disk of this machine. */
final class RealDisk implements Disk {
  @Override
  public void createFolder(Path folder) throws IOException {
    Files.createDirectory(folder);
  }

  @Override
  public void createFile(Path file, byte[] bytes) throws IOException {
    Files.write(file, bytes, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
  }

  @Override
  public void move(Path from, Path to) throws IOException {
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
  }

  @Override
  public void delete(Path path) throws IOException {
    Files.deleteIfExists(path);
  }
}
