package dev.ullage.proof;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Who brings which bytes, as the GNU linker says in its map: after unused sections are dropped, and
 * without any figure of ours.
 *
 * @param files bytes by object file: {@code average.o}, or {@code libgcc.a(_mulhisi3.o)}
 */
record LinkMap(Map<String, Bytes> files) {
  private static final Set<String> FLASH =
      Set.of(".boot", ".start", ".text", ".rodata", ".ramcode", ".data", ".settings");
  private static final Set<String> RAM = Set.of(".ramcode", ".data", ".bss", ".noinit");

  private static final Pattern OUTPUT = Pattern.compile("(\\.\\S+)(\\s.*)?");
  private static final Pattern INPUT =
      Pattern.compile(" (?:\\S+)\\s+0x[0-9a-f]+\\s+0x([0-9a-f]+)(?: (.*/)?([^/]+)?)?");

  /** What nobody brings: what lies between, for alignment. */
  static final String FILL = "fill";

  /** In program memory and in RAM; initialised data is in both. */
  record Bytes(int flash, int ram) {
    static final Bytes NONE = new Bytes(0, 0);

    Bytes plus(Bytes more) {
      return new Bytes(flash + more.flash, ram + more.ram);
    }
  }

  static LinkMap parse(String text) {
    // A long name stands on a line of its own.
    String[] lines =
        text.substring(text.indexOf("\nLinker script and memory map"))
            .replaceAll("(?m)^( ?\\.\\S+)\n +0x", "$1 0x")
            .split("\n");
    Map<String, Bytes> files = new TreeMap<>();
    String section = "";
    for (String line : lines) {
      Matcher input = INPUT.matcher(line);
      if (OUTPUT.matcher(line).matches()) {
        section = line.split(" ")[0];
      } else if (input.matches()) {
        String file = input.group(3) == null ? FILL : input.group(3);
        files.merge(file, in(section, Integer.parseInt(input.group(1), 16)), Bytes::plus);
      }
    }
    return new LinkMap(files);
  }

  /** The object file that a source file is compiled to, without folders: {@code average.o}. */
  static String objectOf(String source) {
    return source.substring(source.lastIndexOf('/') + 1).replace(".c", ".o");
  }

  private static Bytes in(String section, int bytes) {
    return new Bytes(FLASH.contains(section) ? bytes : 0, RAM.contains(section) ? bytes : 0);
  }
}
