package dev.ullage.emit;

import dev.ullage.firmware.Firmware;
import java.util.List;
import java.util.Map;

/** What the Makefile of a firmware says, and the flags that its size depends on. */
public final class BuildRules {
  /** How emitted firmware is compiled: the estimate holds for these and no others. */
  public static final List<String> FLAGS =
      List.of(
          "-Os",
          "-std=c99",
          "-ffunction-sections",
          "-fdata-sections",
          "-fno-common",
          "-ffreestanding",
          "-fno-jump-tables",
          "-fno-tree-switch-conversion",
          // Or a loop of additions becomes a multiplication, and its library routine.
          "-fno-tree-scev-cprop");

  /** What emitted firmware compiles without. */
  public static final List<String> WARNINGS =
      List.of("-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow");

  private BuildRules() {}

  static String template(Firmware firmware) {
    return firmware.target().family().port() + "/Makefile.ftl";
  }

  static Map<String, Object> model(Firmware firmware, List<EmittedFile> emitted) {
    List<String> sources = firmware.modules().stream().map(Sources::path).toList();
    return Map.of(
        "project", Escape.makeComment(firmware.loop().name()),
        "title", firmware.target().title(),
        "target", firmware.target().name(),
        "flash", firmware.target().flashBytes(),
        "ram", firmware.target().ramBytes(),
        "sources", sources,
        "naked", emitted.stream().filter(BuildRules::isNaked).map(EmittedFile::path).toList(),
        "portable", sources.stream().filter(BuildRules::runsOnHost).toList(),
        "flags", String.join(" ", FLAGS),
        "warnings", String.join(" ", WARNINGS));
  }

  /** The compiler warns that it cannot tell the stack of a handler that is written by hand. */
  private static boolean isNaked(EmittedFile file) {
    return file.text().contains("ISR_NAKED");
  }

  /** The portable part, but for {@code main}, which the checks compile under another name. */
  private static boolean runsOnHost(String source) {
    return source.startsWith("src/") && !source.equals("src/main.c");
  }
}
