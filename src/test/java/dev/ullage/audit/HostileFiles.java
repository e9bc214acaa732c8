package dev.ullage.audit;

import dev.ullage.input.InputException;
import dev.ullage.measure.ElfProgram;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.Stream;

/**
 * Audits files that were damaged at random and files that were made to do harm, one after another,
 * in a process of its own with little memory. Prints a line for each that took too long or ended
 * otherwise than with figures or with a finding, and at the end how many there were.
 *
 * <p>Arguments: a folder to work in with an undamaged {@code x.elf}, how often to damage each file,
 * and the files.
 */
final class HostileFiles {

  /** Twice the two seconds that it may take, for a machine that has other things to do as well. */
  private static final long MOST_MILLIS = 4000;

  private static final String NAMES = "a".repeat(3999) + '\0';

  private final Path folder;
  private int figures;
  private int findings;

  private HostileFiles(Path folder) {
    this.folder = folder;
  }

  public static void main(String[] args) throws IOException {
    HostileFiles run = new HostileFiles(Path.of(args[0]));
    int times = Integer.parseInt(args[1]);
    for (String file : Arrays.asList(args).subList(2, args.length)) {
      run.damage(Path.of(file), times);
    }
    for (Map.Entry<String, Supplier<byte[]>> each : made().entrySet()) {
      run.audit(each.getKey(), each.getValue().get());
    }
    System.out.println(run.figures + " with figures, " + run.findings + " with a finding");
  }

  private void damage(Path file, int times) throws IOException {
    byte[] whole = Files.readAllBytes(file);
    String name = file.getFileName().toString();
    for (int seed = 0; seed < times; seed++) {
      audit(name, damaged(whole, new Random(seed)));
    }
  }

  /** Time on a processor, of all threads: what a machine that does nothing else would take. */
  private static long processorMillis() {
    return ProcessHandle.current().info().totalCpuDuration().orElseThrow().toMillis();
  }

  /** Changes bytes, most of them in the headers; every eighth time the end is cut off too. */
  private static byte[] damaged(byte[] whole, Random random) {
    byte[] bytes = whole.clone();
    int headers = Math.min(bytes.length, 4000);
    for (int i = random.nextInt(30); i >= 0; i--) {
      int at =
          switch (random.nextInt(3)) {
            case 0 -> random.nextInt(headers);
            case 1 -> bytes.length - 1 - random.nextInt(headers);
            default -> random.nextInt(bytes.length);
          };
      bytes[at] = (byte) (random.nextBoolean() ? random.nextInt() : -random.nextInt(2));
    }
    return random.nextInt(8) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
  }

  private void audit(String name, byte[] bytes) throws IOException {
    Path file = folder.resolve(name.split(",")[0]);
    Files.write(file, bytes);
    boolean companion = file.getFileName().toString().startsWith("x.");
    long start = processorMillis();
    try {
      if (name.endsWith(".baseline")) {
        Baseline.read(file);
      } else {
        Artefacts.read(companion ? folder.resolve("x.elf") : file, Optional.empty());
      }
      figures++;
    } catch (InputException wrong) {
      findings++;
    } catch (Throwable failure) {
      System.out.println(name + " ended with " + failure);
      failure.printStackTrace(System.out);
    }
    long millis = processorMillis() - start;
    if (millis > MOST_MILLIS) {
      System.out.println(name + " took " + millis + " ms");
    }
    Files.delete(file);
  }

  /** Files that no tool would write. Those named {@code x.} lie beside a sound program. */
  private static Map<String, Supplier<byte[]>> made() {
    Map<String, Supplier<byte[]>> made = new LinkedHashMap<>();
    made.put("overlapping-memory.elf", HostileFiles::overlappingMemory);
    made.put("overlapping-file.elf", HostileFiles::overlappingFile);
    made.put("many-symbols.elf", () -> symbols(ElfProgram.ARM, 1_000_000, 0, 2));
    made.put("long-names.elf", () -> symbols(ElfProgram.ARM, 250_000, 0, 2));
    made.put("all-in-one-place.elf", () -> symbols(ElfProgram.ARM, 250_000, 3999, 0));
    made.put("functions-everywhere.elf", () -> symbols(ElfProgram.AVR, 200_000, 3999, 2));
    made.put("slide.elf", () -> code(500 * 1024, 0x0000));
    made.put("pushes.elf", () -> code(500 * 1024, 0x920F));
    made.put("calls.elf", () -> code(500 * 1024, 0xD7FF));
    made.put("branches.elf", () -> code(500 * 1024, 0xF1F9));
    made.put("large.elf", () -> code(15 << 20, 0x0000));
    made.put("huge.elf", () -> new byte[70 << 20]);
    made.put(
        "x.map, line", () -> text("Linker script and memory map", " .a 0x0 0x1 ", 2_000_000, ""));
    made.put(
        "x.map, long",
        () -> text("Linker script and memory map\n.t\n", " .a 0x0 0x1 b\n", 900_000, ""));
    made.put("records.hex", () -> text("", ":0100000000FF\n", 1_500_000, ":00000001FF\n"));
    made.put("zeros.hex", () -> new byte[20 << 20]);
    made.put(
        "rows.mem",
        () -> text("Internal RAM layout:\n", "0x00:" + "|a".repeat(16) + "|\n", 600_000, ""));
    made.put(
        "areas.map",
        () ->
            text(
                "ASxxxx Linker\n",
                "CODE  00000000  7FFFFFFF =  1. bytes (REL,CON)\n",
                400_000,
                ""));
    made.put(
        "lines.baseline",
        () -> text("# ullage baseline 1:\n", "a\tb\tcode\t1\t-\n", 1_500_000, ""));
    made.put("x.ci, cycle", HostileFiles::cycle);
    made.put(
        "x.ci, many",
        () -> text("", "edge: { sourcename: \"main\" targetname: \"a\" }\n", 600_000, ""));
    made.put("x.ci, deep", HostileFiles::deep);
    made.put("x.su, wrong", () -> text("", "main.c:1:1:main\tmany\tstatic\n", 900_000, ""));
    return made;
  }

  private static byte[] overlappingMemory() {
    HostileElf elf = new HostileElf(ElfProgram.ARM, 4 << 20);
    for (int i = 0; i < 60_000; i++) {
      elf.section("a", HostileElf.NOBITS, HostileElf.ALLOC, 0, 52, Integer.MAX_VALUE, 0);
    }
    return elf.bytes();
  }

  private static byte[] overlappingFile() {
    HostileElf elf = new HostileElf(ElfProgram.AVR, 20 << 20);
    elf.section("a", HostileElf.PROGBITS, HostileElf.CODE, 0, new byte[15 << 20], 0);
    for (int i = 1; i < 50_000; i++) {
      elf.section("a", HostileElf.PROGBITS, HostileElf.CODE, i << 24, 52, 15 << 20, 0);
    }
    return elf.bytes();
  }

  private static byte[] symbols(int machine, int count, int nameStep, int valueStep) {
    byte[] names = ("\0" + NAMES.repeat(3)).getBytes(StandardCharsets.ISO_8859_1);
    byte[] rows = HostileElf.symbols(count, nameStep % 4000, valueStep, 2);
    return new HostileElf(machine, 52 + 500_000 + names.length + rows.length + 4000)
        .section(".text", HostileElf.PROGBITS, HostileElf.CODE, 0, new byte[500_000], 0)
        .section(".strtab", HostileElf.STRTAB, 0, 0, names, 0)
        .section(".symtab", HostileElf.SYMTAB, 0, 0, rows, 2)
        .bytes();
  }

  /** One function that is nothing but the same instruction. */
  private static byte[] code(int bytes, int instruction) {
    byte[] code = new byte[bytes];
    for (int i = 0; i + 1 < bytes; i += 2) {
      code[i] = (byte) instruction;
      code[i + 1] = (byte) (instruction >>> 8);
    }
    byte[] names = "\0main\0".getBytes(StandardCharsets.ISO_8859_1);
    return new HostileElf(ElfProgram.AVR, 52 + bytes + 4000)
        .section(".text", HostileElf.PROGBITS, HostileElf.CODE, 0, code, 0)
        .section(".strtab", HostileElf.STRTAB, 0, 0, names, 0)
        .section(".symtab", HostileElf.SYMTAB, 0, 0, HostileElf.symbols(1, 1, 0, bytes), 2)
        .bytes();
  }

  private static byte[] text(String head, String line, int times, String end) {
    return (head + line.repeat(times) + end).getBytes(StandardCharsets.ISO_8859_1);
  }

  private static byte[] cycle() {
    return graph(90_000, i -> List.of((i + 1) % 90_000));
  }

  /** Every function calls the next and the one after: more paths than there are atoms. */
  private static byte[] deep() {
    return graph(45_000, i -> List.of(i + 1, i + 2));
  }

  private static byte[] graph(int functions, java.util.function.IntFunction<List<Integer>> calls) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < functions; i++) {
      String name = i == 0 ? "main" : "f" + i;
      text.append("node: { title: \"").append(name).append("\" label: \"8 bytes (static)\" }\n");
      for (int to : calls.apply(i)) {
        text.append("edge: { sourcename: \"").append(name).append("\" targetname: \"");
        text.append(to == 0 ? "main" : "f" + to).append("\" }\n");
      }
    }
    return text.toString().getBytes(StandardCharsets.ISO_8859_1);
  }

  /** What is in a folder, for whoever wants to damage it. */
  static List<String> in(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(Path::toString).sorted().toList();
    }
  }
}
