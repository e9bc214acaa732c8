package dev.ullage.proof;

import dev.ullage.testing.Tool;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The programs that the figures were made with. */
final class Tools {
  /** Those that say their version when asked for it. */
  private static final List<String> ASKED =
      List.of("avr-gcc", "avr-ld", "gcc", "clang-14", "cppcheck");

  /** Debian packages of what cannot be asked. */
  private static final List<String> PACKAGES = List.of("avr-libc", "libsimavr2");

  private Tools() {}

  /** Name and version of each that is here. */
  static List<List<String>> versions() {
    List<List<String>> versions = new ArrayList<>();
    for (String tool : ASKED) {
      if (Tool.isThere(tool)) {
        versions.add(List.of(tool, firstLine(tool, "--version")));
      }
    }
    for (String name : PACKAGES) {
      String version = firstLine("dpkg-query", "--show", "--showformat=${Version}", name);
      versions.add(List.of(name, "Debian package " + version));
    }
    versions.add(List.of("Java", System.getProperty("java.version")));
    return versions;
  }

  private static String firstLine(String... command) {
    return Tool.output(Path.of("."), command).lines().findFirst().orElse("unknown");
  }
}
