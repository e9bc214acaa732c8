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
  private static byte[] thumb = new byte[0];
  private static byte[] riscv = new byte[0];
  private static byte[] thumbObject = new byte[0];
  private static byte[] riscvObject = new byte[0];

  @BeforeProperty
  void compileOnce() throws IOException {
    Toolchain.avr();
    CrossTools.M3.require();
    CrossTools.RV32IMAC.require();
    if (object.length == 0) {
      Path folder = Files.createTempDirectory("damaged");
      Path worker = Toolchain.compile("attiny85", "worker.c", Snippets.WORKER, folder);
      Path main = Toolchain.compile("attiny85", "main.c", Snippets.MAIN, folder);
      object = Files.readAllBytes(worker);
      program =
          Files.readAllBytes(Toolchain.link("attiny85", java.util.List.of(worker, main), folder));
      thumb = portable(CrossTools.M3);
      riscv = portable(CrossTools.RV32IMAC);
      thumbObject = portableObject(CrossTools.M3);
      riscvObject = portableObject(CrossTools.RV32IMAC);
    }
  }

  private static byte[] portableObject(CrossTools tools) throws IOException {
    Path folder = Files.createTempDirectory("damaged");
    return Files.readAllBytes(
        tools.compile(folder, "frames.c", PortableSnippets.FRAMES, "-Os", "-ffunction-sections"));
  }

  private static byte[] portable(CrossTools tools) throws IOException {
    Path folder = Files.createTempDirectory("damaged");
    Path frames = tools.compile(folder, "frames.c", PortableSnippets.FRAMES, "-Os");
    Path main = tools.compile(folder, "main.c", PortableSnippets.MAIN, "-Os");
    Path start = tools.compile(folder, "start.c", PortableSnippets.START, "-Os");
    return Files.readAllBytes(tools.link(folder, java.util.List.of(frames, main, start)));
  }

  @Property(tries = 1500)
  void changedObjectFile_givesSymbolsOrFindings(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    read(changed(object, seed, changes), bytes -> ObjectFile.read("x.o", bytes));
  }

  @Property(tries = 1500)
  void changedObjectFileOfAnotherMachine_givesSymbolsOrFindings(
      @ForAll boolean arm, @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    byte[] whole = arm ? thumbObject : riscvObject;
    read(changed(whole, seed, changes), bytes -> ObjectFile.read("x.o", bytes));
  }

  @Property(tries = 1500)
  void changedProgram_givesFiguresOrFindings(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    read(changed(program, seed, changes), bytes -> LinkedProgram.read("x.elf", bytes));
  }

  @Property(tries = 1500)
  void changedProgramOfAnotherMachine_givesFiguresOrFindings(
      @ForAll boolean arm, @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int changes) {
    read(changed(arm ? thumb : riscv, seed, changes), bytes -> LinkedProgram.read("x.elf", bytes));
  }

  @Property(tries = 400)
  void cutProgramOfAnotherMachine_givesFiguresOrFindings(
      @ForAll boolean arm, @ForAll @IntRange(max = 60_000) int length) {
    byte[] whole = arm ? thumb : riscv;
    read(Arrays.copyOf(whole, length % whole.length), bytes -> LinkedProgram.read("x.elf", bytes));
  }

  /** Code that means nothing, with all names in place. */
  @Property(tries = 400)
  void anyInstructions_giveFiguresOrFindings(
      @ForAll boolean arm,
      @ForAll long seed,
      @ForAll @IntRange(min = 100, max = 3000) int changes) {
    byte[] bytes = (arm ? thumb : riscv).clone();
    Random random = new Random(seed);
    // The linker puts code behind the headers, one page into the file.
    for (int i = 0; i < changes; i++) {
      bytes[0x1000 + random.nextInt(3000)] = (byte) random.nextInt();
    }
    read(bytes, each -> LinkedProgram.read("x.elf", each));
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
