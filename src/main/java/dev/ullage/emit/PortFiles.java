package dev.ullage.emit;

import dev.ullage.target.Target;
import freemarker.template.TemplateMethodModelEx;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The templates of a family's port. A family names folders; of each file the first of them that has
 * it counts, and the portable part comes last.
 */
final class PortFiles {
  private static final String SUFFIX = ".ftl";

  // Headers that not every port has.
  private static final List<String> HEADERS =
      List.of("port/registers.h", "port/pins.h", "port/tone.h", "port/watchdog.h");

  // What a toolchain brings for some parts, and the port for the others.
  private static final List<String> SUPPORT =
      List.of("port/boot.c", "port/start.c", "port/start.S", "port/link.ld");

  private final Target target;
  private final List<String> folders;

  PortFiles(Target target) {
    this.target = target;
    this.folders = new ArrayList<>(target.family().ports());
    folders.add("portable");
  }

  /**
   * Where a file's template is.
   *
   * @throws IllegalStateException if no folder has it: a port is not complete
   */
  String template(String file) {
    for (String folder : folders) {
      String name = folder + "/" + file;
      if (Templates.exists(name)) {
        return name;
      }
    }
    throw new IllegalStateException(
        "None of the templates of " + target.family().name() + " is `" + file + "`.");
  }

  /** {@link #template} for templates that include others: {@code <#include find("delay.ftl")>}. */
  TemplateMethodModelEx finder() {
    return arguments -> '/' + template(String.valueOf(arguments.get(0)));
  }

  /** Headers of the port besides {@code port.h}. */
  List<EmittedFile> headers(Map<String, Object> model) {
    return those(HEADERS, model);
  }

  /** Start-up, linker script and the like. */
  List<EmittedFile> support(Map<String, Object> model) {
    Map<String, Object> all = new HashMap<>(model);
    all.put("flash_origin", hex(target.flashStart()));
    all.put("flash_bytes", target.flashBytes());
    all.put("ram_origin", hex(target.ramStart()));
    all.put("ram_bytes", target.ramBytes());
    all.put("vectors", target.vectors());
    target
        .family()
        .keeping()
        .map(keeping -> keeping.registers().get("page_bytes"))
        .ifPresent(bytes -> all.put("settings_bytes", bytes));
    return those(SUPPORT, all);
  }

  private static String hex(int address) {
    return "0x" + Integer.toHexString(address);
  }

  /** A file that a loop does not need is empty, and is left out. */
  private List<EmittedFile> those(List<String> files, Map<String, Object> model) {
    return files.stream()
        .filter(file -> folders.stream().anyMatch(f -> Templates.exists(f + "/" + file + SUFFIX)))
        .map(
            file ->
                new EmittedFile(
                    file,
                    Templates.render(template(file + SUFFIX), model),
                    EmittedFile.Policy.REPLACE))
        .filter(file -> !file.text().isEmpty())
        .toList();
  }
}
