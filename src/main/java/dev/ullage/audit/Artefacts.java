package dev.ullage.audit;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.measure.ElfProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Finds what a toolchain has left, and reads it. */
public final class Artefacts {
  private static final int DEEPEST = 8;
  private static final int MOST_FILES = 20_000;
  private static final int MOST_CALL_FILES = 5_000;
  private static final int MOST_PROGRAM_BYTES = 64 << 20;
  private static final int ELF_MAGIC = 0x7F454C46;
  private static final Set<String> PROGRAMS = Set.of("elf", "axf", "out");
  private static final Set<String> IMAGES = Set.of("hex", "ihx");

  private final List<Path> files = new ArrayList<>();

  private Artefacts() {}

  /**
   * Reads the program of a folder, or the one that is named.
   *
   * @param path a folder, or a file that a toolchain has left
   * @param map the linker's map; where it is empty, one is looked for beside the program
   * @throws InputException if there is none, there are several, or one is damaged
   */
  public static Measured read(Path path, Optional<Path> map) {
    Artefacts found = new Artefacts();
    if (Files.isDirectory(path)) {
      found.collect(path, 0);
      return found.measure(found.choose(path), map);
    }
    if (!Files.isRegularFile(path)) {
      String what = Files.exists(path) ? "something else" : "not there";
      throw new InputException(
          new Finding(
              path.toString(), 0, 0, "the path", what, "a folder or a program", Optional.empty()));
    }
    Path folder = path.toAbsolutePath().getParent();
    found.collect(folder, 0);
    return found.measure(path, map);
  }

  private void collect(Path folder, int depth) {
    List<Path> entries;
    try (Stream<Path> all = Files.list(folder)) {
      entries = all.limit(MOST_FILES).sorted().toList();
    } catch (IOException | UncheckedIOException e) {
      if (depth > 0) {
        return; // somebody else's, and none of what was asked about
      }
      throw TextFile.wrong(folder.toString(), 0, "closed to us", "readable");
    }
    for (Path each : entries) {
      boolean hidden = each.getFileName().toString().startsWith(".");
      if (Files.isRegularFile(each, LinkOption.NOFOLLOW_LINKS) && files.size() < MOST_FILES) {
        files.add(each);
      } else if (depth < DEEPEST
          && !hidden
          && files.size() < MOST_FILES
          && Files.isDirectory(each, LinkOption.NOFOLLOW_LINKS)) {
        collect(each, depth + 1);
      }
    }
  }

  /** The program that a folder is about. */
  private Path choose(Path folder) {
    Path built = folder.resolve("build").resolve("firmware.elf");
    if (files.contains(built)) {
      return built;
    }
    List<Path> programs = ending(PROGRAMS);
    if (programs.isEmpty()) {
      programs = ending(Set.of("mem"));
    }
    if (programs.isEmpty()) {
      programs = ending(Set.of("map")).stream().filter(Artefacts::isSdccMap).toList();
    }
    if (programs.isEmpty()) {
      programs = ending(IMAGES);
    }
    if (programs.isEmpty()) {
      throw wrongFolder(folder, "without one", "one with a linked program", "build it first");
    }
    if (programs.size() > 1) {
      String several = programs.get(0) + " and " + programs.get(1);
      throw wrongFolder(
          folder, "with " + several, "one with a single program", "name the file to audit");
    }
    return programs.get(0);
  }

  private static InputException wrong(Path file, String found, String expected, String cure) {
    return wrong(file, "", found, expected, cure);
  }

  private static InputException wrongFolder(
      Path folder, String found, String expected, String cure) {
    return wrong(folder, "the folder", found, expected, cure);
  }

  private static InputException wrong(
      Path path, String key, String found, String expected, String cure) {
    return new InputException(
        new Finding(path.toString(), 0, 0, key, found, expected, Optional.of(cure)));
  }

  private static boolean isSdccMap(Path file) {
    return SdccMap.isOne(TextFile.read(file));
  }

  private List<Path> ending(Set<String> endings) {
    return files.stream().filter(file -> endings.contains(ending(file))).toList();
  }

  private static String ending(Path file) {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    return dot < 0 ? "" : name.substring(dot + 1).toLowerCase(Locale.ROOT);
  }

  private Measured measure(Path file, Optional<Path> map) {
    byte[] bytes = TextFile.bytes(file, MOST_PROGRAM_BYTES);
    if (isElf(bytes) || PROGRAMS.contains(ending(file))) {
      ElfProgram program = ElfProgram.read(file.toString(), bytes);
      Optional<LinkerMap> layout =
          map.map(TextFile::read).map(LinkerMap::read).or(() -> mapBeside(file));
      return new ElfReading(program, layout, callFiles()).measure(bytes);
    }
    TextFile text = TextFile.read(file);
    if (SdccMemory.isOne(text)) {
      return SdccMemory.read(text, sdccMapBeside(file));
    }
    if (SdccMap.isOne(text)) {
      return SdccMap.read(text);
    }
    if (LinkerMap.isOne(text)) {
      throw wrong(
          file, "a linker map", "a program", "audit the ELF file; its map is found beside it");
    }
    if (ending(file).equals("mem")) {
      return SdccMemory.read(text, Optional.empty());
    }
    return IntelHex.read(text);
  }

  private static boolean isElf(byte[] bytes) {
    return bytes.length >= 4
        && (bytes[0] << 24 | bytes[1] << 16 | bytes[2] << 8 | bytes[3]) == ELF_MAGIC;
  }

  private Optional<LinkerMap> mapBeside(Path program) {
    return beside(program).map(TextFile::read).filter(LinkerMap::isOne).map(LinkerMap::read);
  }

  private Optional<Measured> sdccMapBeside(Path memory) {
    return beside(memory).map(TextFile::read).filter(SdccMap::isOne).map(SdccMap::read);
  }

  /** {@code firmware.map} or {@code firmware.elf.map}, in the program's folder. */
  private static Optional<Path> beside(Path program) {
    String name = program.getFileName().toString();
    int dot = name.lastIndexOf('.');
    String stem = dot < 0 ? name : name.substring(0, dot);
    return Stream.of(stem + ".map", name + ".map")
        .map(program::resolveSibling)
        .filter(Files::isRegularFile)
        .findFirst();
  }

  private CallFiles callFiles() {
    List<Path> lists = ending(Set.of("ci", "su"));
    if (lists.size() > MOST_CALL_FILES) {
      throw wrongFolder(
          lists.get(0).getParent(),
          "with " + lists.size() + " stack files",
          "one with at most " + MOST_CALL_FILES,
          "audit the folder of one build");
    }
    CallFiles calls = new CallFiles();
    for (Path each : lists) {
      if (ending(each).equals("ci")) {
        calls.readCalls(TextFile.read(each));
      } else {
        calls.readFrames(TextFile.read(each));
      }
    }
    return calls;
  }
}
