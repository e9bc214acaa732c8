package dev.ullage.emit;

import dev.ullage.firmware.Constant;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Module;
import dev.ullage.firmware.TypeName;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.BusDriver;
import dev.ullage.target.Pin;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The C of a plan. A module's file sees that module's traits and the registers of the family, and
 * no constant: constants reach it through {@code config.h} alone. So modules with the same key have
 * the same code.
 */
public final class Sources {
  private static final String PORTABLE = "portable/src/";

  // Modules whose code lies in the port's folder of templates, by the folder that they go to.
  private static final Map<String, String> OF_PORT =
      Map.of(
          "pace", "port",
          "begin", "port",
          "converter", "port",
          "serial", "port",
          "settings", "port",
          "pins", "port",
          "bus_bitbang", "bus",
          "bus_polled", "bus",
          "bus_buffered", "bus");

  // Headers that exist for the sake of one module.
  private static final Set<String> WITH_HEADER =
      Set.of("check", "average", "knob", "outputs", "pace", "report", "settings", "alarm");

  private final Firmware firmware;
  private final PortFiles port;
  private final Map<String, Object> common;

  private Sources(Firmware firmware) {
    this.firmware = firmware;
    this.port = new PortFiles(firmware.target());
    this.common = common();
  }

  /** Every C file of a plan, headers first. */
  public static List<EmittedFile> of(Firmware firmware) {
    Sources sources = new Sources(firmware);
    List<EmittedFile> files = new ArrayList<>(sources.headers());
    files.add(sources.hooks());
    for (Module module : firmware.modules()) {
      files.add(sources.code(module));
    }
    files.addAll(sources.support());
    return files;
  }

  /** What a program on this target is linked with besides its modules: start-up and the like. */
  public static List<EmittedFile> support(Firmware firmware) {
    return new Sources(firmware).support();
  }

  private List<EmittedFile> support() {
    Map<String, Object> model = new HashMap<>(common);
    List<Map<String, String>> handlers = handlers();
    model.put("handlers", handlers);
    model.put(
        "handler_names", handlers.stream().map(handler -> handler.get("name")).distinct().toList());
    return port.support(model);
  }

  /** Interrupt handlers that the modules have, by the numbers of their vectors. */
  private List<Map<String, String>> handlers() {
    List<Map<String, String>> handlers = new ArrayList<>();
    if (firmware.module("pace").orElseThrow().traits().get("tick").equals("counted")) {
      addHandlers("isr_pace", firmware.pace().timer().registers(), handlers);
    }
    if (firmware.bus().driver() == BusDriver.BUFFERED) {
      firmware
          .target()
          .family()
          .busPort()
          .controller()
          .ifPresent(controller -> addHandlers("isr_bus", controller.registers(), handlers));
    }
    return handlers;
  }

  /** Some controllers have a vector of their own for errors. */
  private static void addHandlers(
      String name, Map<String, String> registers, List<Map<String, String>> handlers) {
    for (String vector : List.of("vector", "error_vector")) {
      if (registers.containsKey(vector)) {
        handlers.add(Map.of("name", name, "number", registers.get(vector)));
      }
    }
  }

  /** One module's C file, and every header that it may include. */
  public static List<EmittedFile> toCompile(Firmware firmware, Module module) {
    Sources sources = new Sources(firmware);
    List<EmittedFile> files = new ArrayList<>(sources.headers());
    files.add(sources.hooks());
    files.add(sources.code(module));
    return files;
  }

  /** Where a module's code lies in an emitted folder. */
  public static String path(Module module) {
    return OF_PORT.getOrDefault(module.name(), "src") + "/" + module.name() + ".c";
  }

  private EmittedFile hooks() {
    return new EmittedFile(
        "yours/hooks.h",
        Templates.render("portable/yours/hooks.h.ftl", common),
        EmittedFile.Policy.ONCE);
  }

  private EmittedFile code(Module module) {
    String name = module.name() + ".c.ftl";
    String template =
        OF_PORT.containsKey(module.name())
            ? port.template(OF_PORT.get(module.name()) + "/" + name)
            : PORTABLE + name;
    Map<String, Object> model = new HashMap<>(common);
    model.put("t", ways(module));
    model.put("n", module.counts());
    return file(path(module), template, model);
  }

  private List<EmittedFile> headers() {
    List<EmittedFile> files = new ArrayList<>();
    files.add(file("src/fixed.h", PORTABLE + "fixed.h.ftl", common));
    files.add(file("src/config.h", PORTABLE + "config.h.ftl", common));
    files.add(file("src/reading.h", PORTABLE + "reading.h.ftl", common));
    files.add(file("bus/bus.h", "portable/bus/bus.h.ftl", common));
    files.add(file("port/port.h", port.template("port/port.h.ftl"), common));
    files.addAll(port.headers(common));
    for (Module module : firmware.modules()) {
      if (WITH_HEADER.contains(module.name())) {
        Map<String, Object> model = new HashMap<>(common);
        model.put("t", ways(module));
        String name = module.name() + ".h";
        files.add(file("src/" + name, PORTABLE + name + ".ftl", model));
      }
    }
    return files;
  }

  private static EmittedFile file(String path, String template, Map<String, Object> model) {
    return new EmittedFile(path, Templates.render(template, model), EmittedFile.Policy.REPLACE);
  }

  private Map<String, Object> common() {
    Map<String, Object> model = new HashMap<>();
    model.put("project", Escape.cComment(firmware.loop().name()));
    model.put("title", firmware.target().title());
    model.put("find", port.finder());
    model.put("family", firmware.target().family());
    model.put("types", firmware.types().stream().map(Sources::type).toList());
    model.put("constants", firmware.constants().stream().map(Sources::constant).toList());
    Map<String, Object> has = new HashMap<>();
    firmware.modules().forEach(module -> has.put(module.name(), ways(module)));
    model.put("has", has);
    model.put("pin", pins());
    model.put("driver", firmware.bus().driver().name().toLowerCase(Locale.ROOT));
    model.put("mute", firmware.loop().extras().muteButton());
    model.put("frozen", firmware.loop().sensor().frozenAfter() > 0);
    Map<String, String> alarm = firmware.module("alarm").orElseThrow().traits();
    model.put("forgives", alarm.get("forgives").equals("yes"));
    model.put("fault", alarm.get("fault"));
    firmware.types().forEach(type -> model.put(shortName(type.name()), type.type().toString()));
    model.put("pace", firmware.pace());
    model.put("shared", firmware.pace().shared());
    firmware
        .tone()
        .ifPresent(
            tone -> {
              model.put("tone", tone);
              model.put("frequency", String.format(Locale.ROOT, "%.1f", tone.hz()));
            });
    if (firmware.module("reading").orElseThrow().traits().get("keep").equals("yes")) {
      model.put("keeps", firmware.loop().sensor().frame().samples() > 1 ? "FRAME_SAMPLES" : "1");
    }
    firmware.loop().extras().report().ifPresent(report -> model.put("baud", report.baud()));
    return model;
  }

  /** {@code period_t} to {@code period}: under this name a template finds the type's short name. */
  private static String shortName(String type) {
    return type.substring(0, type.length() - 2);
  }

  private Map<String, Object> pins() {
    Map<String, Object> pins = new HashMap<>();
    for (Map.Entry<Role, Pin> pin : firmware.pins().entrySet()) {
      pins.put(pin.getKey().name().toLowerCase(Locale.ROOT), pin.getValue());
    }
    return pins;
  }

  /** Traits and forms together: both shape the text. */
  private static Map<String, String> ways(Module module) {
    Map<String, String> ways = new HashMap<>(module.traits());
    ways.putAll(module.forms());
    return ways;
  }

  private static Map<String, String> type(TypeName type) {
    return Map.of(
        "name", type.name(), "c", type.type().cName(), "why", Escape.cComment(type.why()));
  }

  private static Map<String, String> constant(Constant constant) {
    return Map.of(
        "name", constant.name(),
        "literal", constant.literal(),
        "why", Escape.cComment(constant.why()));
  }
}
