package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import java.util.function.Consumer;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.lifecycle.BeforeProperty;

/** Any bytes give figures or an {@link InputException}, in time, and never another exception. */
class DamagedFileProperties {
  private static byte[] object = new byte[0];
  private static byte[] program = new byte[0];

  @BeforeProperty
  void compileOnce() throws IOException {
    Toolchain.avr();
    if (object.length == 0) {
      Path folder = Files.createTempDirectory("damaged");
      Path worker = Toolchain.compile("attiny85", "worker.c", Snippets.WORKER, folder);
      Path main = Toolchain.compile("attiny85", "main.c", Snippets.MAIN, folder);
      object = Files.readAllBytes(worker);
      program =
          Files.readAllBytes(Toolchain.link("attiny85", java.util.List.of(worker, main), folder));
    }
  }

  @Property(tries = 1500)
  void changedObjectFile_givesSymbolsOrFindings(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    read(changed(object, seed, changes), bytes -> ObjectFile.read("x.o", bytes));
  }

  @Property(tries = 1500)
  void changedProgram_givesFiguresOrFindings(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    read(changed(program, seed, changes), bytes -> LinkedProgram.read("x.elf", bytes));
  }

  @Property(tries = 400)
  void cutProgram_givesFiguresOrFindings(@ForAll @IntRange(max = 60_000) int length) {
    read(
        Arrays.copyOf(program, length % program.length),
        bytes -> LinkedProgram.read("x.elf", bytes));
  }

  @Property(tries = 400)
  void anyBytes_areNoProgram(@ForAll @Size(max = 300) byte[] bytes) {
    assertTrue(read(bytes, each -> LinkedProgram.read("x.elf", each)));
    assertTrue(read(bytes, each -> Archive.members("x.a", each)));
  }

  /** Changes bytes all over, but half of them in the headers, where they hurt most. */
  private static byte[] changed(byte[] from, long seed, int changes) {
    Random random = new Random(seed);
    byte[] bytes = from.clone();
    int headers = bytes[32] & 0xFF | (bytes[33] & 0xFF) << 8;
    for (int i = 0; i < changes; i++) {
      int at = random.nextBoolean() ? headers + random.nextInt(400) : random.nextInt(bytes.length);
      bytes[at % bytes.length] = (byte) random.nextInt();
    }
    return bytes;
  }

  private static boolean read(byte[] bytes, Consumer<byte[]> reader) {
    return assertTimeoutPreemptively(
        Duration.ofSeconds(20),
        () -> {
          try {
            reader.accept(bytes);
            return false;
          } catch (InputException e) {
            return true;
          }
        });
  }
}
