package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Reads what the targets of a family have in common: pins and peripherals. What the planner needs
 * has keys of its own; every other key of a peripheral is a word for the templates of the port.
 */
final class HardwareReader {
  private static final List<String> KINDS =
      Arrays.stream(BusPort.Kind.values())
          .map(kind -> kind.name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .toList();
  private static final int TOGGLES_OF_A_WAVE = 2;
  private static final int HALF = 2;

  private final Map<String, Recipe> recipes;

  HardwareReader(Map<String, Recipe> recipes) {
    this.recipes = recipes;
  }

  Family family(Section root) {
    return new Family(
        root.text("family"),
        root.text("title"),
        root.words("port", folder -> folder, "folders of templates"),
        PinReader.pins(root),
        root.list("timers", HardwareReader::timer),
        root.optional("converter", HardwareReader::converter),
        root.optional("serial", this::serialPort),
        root.section("two_wire", this::busPort),
        root.optional("keeping", HardwareReader::keeping),
        root.section("watchdog", this::watchdog),
        root.section("sleep", this::sleep));
  }

  private static Timer timer(Section timer) {
    return new Timer(
        timer.text("name"),
        timer.integer("bits"),
        timer.has("mode") ? timer.section("mode", mode -> mode.each(mode::text)) : Map.of(),
        byDivider(timer, "clock_select"),
        timer.optional("toggle", HardwareReader::toggle),
        timer.others());
  }

  private static Timer.Toggle toggle(Section toggle) {
    return new Timer.Toggle(
        routes(toggle),
        toggle.has("rounds") ? toggle.integer("rounds") : TOGGLES_OF_A_WAVE,
        toggle.others());
  }

  private static Converter converter(Section converter) {
    return new Converter(
        converter.integer("bits"),
        byDivider(converter, "prescale"),
        converter.integer("clock_max_hz"),
        converter.others());
  }

  private SerialPort serialPort(Section serial) {
    return new SerialPort(
        serial.text("name"), routes(serial), serial.recipe("rate", recipes), serial.others());
  }

  private BusPort busPort(Section bus) {
    BusPort.Kind kind = kind(bus, "kind");
    return new BusPort(kind, bus.has("timing") ? Optional.of(controller(bus)) : Optional.empty());
  }

  static BusPort.Kind kind(Section section, String key) {
    return BusPort.Kind.values()[section.choice(key, KINDS)];
  }

  private BusPort.Controller controller(Section bus) {
    return new BusPort.Controller(routes(bus), bus.recipe("timing", recipes), bus.others());
  }

  private static Keeping keeping(Section keeping) {
    boolean inFlash = keeping.choice("kind", List.of("eeprom", "flash")) == 1;
    return new Keeping(inFlash, keeping.others());
  }

  private Watchdog watchdog(Section watchdog) {
    return new Watchdog(
        watchdog.has("timeouts_ms")
            ? watchdog.words("timeouts_ms", Integer::decode, "whole numbers")
            : List.of(),
        watchdog.recipe("setting", recipes),
        watchdog.has("nap") ? Optional.of(watchdog.recipe("nap", recipes)) : Optional.empty(),
        watchdog.others());
  }

  private Sleep sleep(Section sleep) {
    return new Sleep(
        sleep.has("nap") ? Optional.of(sleep.recipe("nap", recipes)) : Optional.empty(),
        sleep.has("watchdog_part") ? sleep.integer("watchdog_part") : HALF,
        sleep.has("lost_clocks")
            ? sleep.words("lost_clocks", way -> way, "ways of setting the clock")
            : List.of(),
        sleep.others());
  }

  private static List<Route> routes(Section section) {
    return section.parsed("at", Route::parse, "pins such as PB7 PB6 af=1").orElse(List.of());
  }

  /**
   * C text by divider. Written as the stem of bits, then the dividers by the value of those bits,
   * from 1 on: {@code CS0 1 8 64} says that 64 is {@code (1 << CS01) | (1 << CS00)}. Or without a
   * stem, each divider with its text: {@code 2:0 4:1}.
   */
  private static SortedMap<Integer, String> byDivider(Section section, String key) {
    return section
        .parsed(key, HardwareReader::byDivider, "dividers, such as CS0 1 8 64 or 2:0 4:1")
        .orElseGet(TreeMap::new);
  }

  private static SortedMap<Integer, String> byDivider(String text) {
    List<String> words = List.of(text.split(" "));
    SortedMap<Integer, String> texts = new TreeMap<>();
    boolean stem = !words.get(0).contains(":");
    for (int value = stem ? 1 : 0; value < words.size(); value++) {
      String[] pair = words.get(value).split(":", 2);
      if (pair.length != (stem ? 1 : 2)) {
        throw new IllegalArgumentException(text);
      }
      texts.put(Integer.valueOf(pair[0]), stem ? bits(words.get(0), value) : pair[1]);
    }
    return texts;
  }

  /** The C text that sets the bits of a value, the highest first. */
  private static String bits(String stem, int value) {
    StringBuilder text = new StringBuilder();
    for (int bit = Integer.SIZE - 1; bit >= 0; bit--) {
      if ((value >> bit & 1) != 0) {
        text.append(text.isEmpty() ? "" : " | ")
            .append("(1 << ")
            .append(stem)
            .append(bit)
            .append(')');
      }
    }
    return text.toString();
  }
}
