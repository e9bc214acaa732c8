package dev.ullage.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.util.Optional;

/** Standard output that remembers when it failed, for a writer in front of it does not say why. */
final class StandardOutput extends FilterOutputStream {
  private Optional<String> failure = Optional.empty();

  StandardOutput() {
    super(new FileOutputStream(FileDescriptor.out));
  }

  /** Why not everything was written; empty where it was, or where the reader had seen enough. */
  Optional<String> failure() {
    return failure.filter(reason -> !reason.contains("Broken pipe"));
  }

  @Override
  public void write(byte[] bytes, int from, int length) throws IOException {
    try {
      out.write(bytes, from, length);
    } catch (IOException e) {
      failure = Optional.of(String.valueOf(e.getMessage()));
      throw e;
    }
  }
}
