package dev.ullage.emit;

import dev.ullage.firmware.Firmware;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.HashMap;
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
    return new PortFiles(firmware.target()).template("Makefile.ftl");
  }

  static Map<String, Object> model(Firmware firmware, List<EmittedFile> emitted) {
    Target target = firmware.target();
    List<String> sources = new ArrayList<>();
    firmware.modules().forEach(module -> sources.add(Sources.path(module)));
    emitted.stream().map(EmittedFile::path).filter(BuildRules::isSupport).forEach(sources::add);
    Map<String, Object> model = new HashMap<>();
    model.put("project", Escape.makeComment(firmware.loop().name()));
    model.put("title", target.title());
    model.put("target", target.name());
    model.put("flash", target.flashBytes());
    model.put("ram", target.ramBytes());
    model.put("tools", target.toolchain().tools());
    model.put("core", String.join(" ", target.toolchain().flagsFor("$(PART)")));
    model.put("link", String.join(" ", linkFlags(target, emitted)));
    model.put("libraries", String.join(" ", target.toolchain().libraries()));
    model.put("sources", sources);
    model.put(
        "naked", emitted.stream().filter(BuildRules::isNaked).map(EmittedFile::path).toList());
    model.put("portable", sources.stream().filter(BuildRules::runsOnHost).toList());
    model.put("flags", String.join(" ", FLAGS));
    model.put("warnings", String.join(" ", WARNINGS));
    model.put("small", String.join(" ", target.toolchain().smallFlags()));
    String flash = new PortFiles(target).template("flash.mk.ftl");
    model.put("flash_rules", Templates.render(flash, Map.copyOf(model)));
    return model;
  }

  /** What a target's programs are linked with, paths from the emitted folder. */
  public static List<String> linkFlags(Target target, List<EmittedFile> emitted) {
    List<String> flags = new ArrayList<>(List.of("-Wl,--gc-sections"));
    flags.addAll(target.toolchain().linkFlags());
    emitted.stream()
        .map(EmittedFile::path)
        .filter(path -> path.endsWith(".ld"))
        .forEach(script -> flags.add("-T" + script));
    return flags;
  }

  /** Code that belongs to no module. */
  private static boolean isSupport(String path) {
    return path.matches("port/(start|boot)\\.[cS]");
  }

  /** The compiler warns that it cannot tell the stack of a handler that is written by hand. */
  private static boolean isNaked(EmittedFile file) {
    return file.text().contains("ISR_NAKED") || file.text().contains("EMPTY_INTERRUPT");
  }

  /** The portable part, but for {@code main}, which the checks compile under another name. */
  private static boolean runsOnHost(String source) {
    return source.startsWith("src/") && !source.equals("src/main.c");
  }
}
