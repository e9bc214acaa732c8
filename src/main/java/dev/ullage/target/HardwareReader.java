package dev.ullage.target;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what the targets of a family have in common: pins and registers. */
final class HardwareReader {
  private static final List<String> REACHES = words(Pin.Reach.values());
  private static final List<String> KINDS = words(BusPort.Kind.values());

  private static final String CHANNEL = "channel=";
  private static final Set<String> ROLES =
      Set.of("sda", "scl", "transmit", "crystal", "clock-in", "debug", "reset");

  private HardwareReader() {}

  static Family family(Section root) {
    return new Family(
        root.text("family"),
        root.text("title"),
        root.text("port"),
        pins(root),
        root.list("timers", HardwareReader::timer),
        root.optional("converter", HardwareReader::converter),
        root.optional("serial", HardwareReader::serialPort),
        root.section("two_wire", HardwareReader::busPort),
        root.optional("eeprom", HardwareReader::eeprom),
        root.section("watchdog", HardwareReader::watchdog),
        root.section("sleep", HardwareReader::sleep));
  }

  /** Pins are written as words: {@code PB3 channel=3 crystal clock-in}. */
  private static Map<String, Pin> pins(Section root) {
    Map<String, Integer> reaches = root.has("reach") ? reaches(root) : Map.of();
    Map<String, Pin> all = new LinkedHashMap<>();
    root.elements("pins", text -> pin(text, reaches), "a pin such as `PB3 channel=3 crystal`")
        .forEach(
            pin -> {
              if (all.put(pin.name(), pin) != null) {
                root.reject("pins", pin.name() + " twice", "a list of each pin once");
              }
            });
    return all;
  }

  /** By port; a port that is not there is within reach of single-bit instructions. */
  private static Map<String, Integer> reaches(Section root) {
    return root.section("reach", ports -> ports.each(port -> ports.choice(port, REACHES)));
  }

  private static Pin pin(String text, Map<String, Integer> reaches) {
    List<String> words = new ArrayList<>(List.of(text.split(" ")));
    String name = words.remove(0);
    if (name.length() != 3 || name.charAt(0) != 'P' || "01234567".indexOf(name.charAt(2)) < 0) {
      throw new IllegalArgumentException(text);
    }
    OptionalInt channel = OptionalInt.empty();
    if (!words.isEmpty() && words.get(0).startsWith(CHANNEL)) {
      channel = OptionalInt.of(Integer.parseInt(words.remove(0).substring(CHANNEL.length())));
    }
    if (!ROLES.containsAll(words)) {
      throw new IllegalArgumentException(text);
    }
    int reach = reaches.getOrDefault(name.substring(1, 2), Pin.Reach.BIT.ordinal());
    int bit = name.charAt(2) - '0';
    return new Pin(name, name.charAt(1), bit, Pin.Reach.values()[reach], channel, words);
  }

  private static Timer timer(Section timer) {
    Bit flag = bit(timer, "flag");
    Bit mask = bit(timer, "mask");
    return new Timer(
        timer.text("name"),
        timer.integer("bits"),
        timer.section("mode", mode -> mode.each(mode::text)),
        timer.text("clock_register"),
        byDivider(timer, "clock_select"),
        timer.text("count"),
        timer.text("top"),
        flag.register,
        flag.name,
        mask.register,
        mask.name,
        timer.text("vector"),
        timer.optional("toggle", HardwareReader::toggle));
  }

  private static Timer.Toggle toggle(Section toggle) {
    return new Timer.Toggle(
        toggle.text("pin"),
        toggle.text("register"),
        toggle.text("bits"),
        toggle.optionalText("compare"));
  }

  private static Converter converter(Section converter) {
    Bit enable = bit(converter, "enable");
    return new Converter(
        converter.integer("bits"),
        converter.text("select"),
        converter.text("reference"),
        enable.register,
        enable.name,
        converter.text("start"),
        converter.text("result"),
        byDivider(converter, "prescale"),
        converter.integer("clock_max_hz"));
  }

  private static SerialPort serialPort(Section serial) {
    Bit empty = bit(serial, "empty");
    Bit transmit = bit(serial, "transmit");
    return new SerialPort(
        serial.text("name"),
        empty.register,
        empty.name,
        serial.text("double_speed"),
        transmit.register,
        transmit.name,
        serial.text("data"),
        serial.text("baud_low"),
        serial.text("baud_high"),
        serial.text("pin"));
  }

  private static BusPort busPort(Section bus) {
    BusPort.Kind kind = kind(bus, "kind");
    return new BusPort(
        kind, kind == BusPort.Kind.CONTROLLER ? Optional.of(registers(bus)) : Optional.empty());
  }

  static BusPort.Kind kind(Section section, String key) {
    return BusPort.Kind.values()[section.choice(key, KINDS)];
  }

  private static BusPort.Registers registers(Section bus) {
    return new BusPort.Registers(
        bus.text("bit_rate"),
        bus.text("control"),
        bus.text("data"),
        bus.text("status"),
        bus.text("vector"),
        bus.text("sda"),
        bus.text("scl"));
  }

  private static Eeprom eeprom(Section eeprom) {
    return new Eeprom(
        eeprom.text("control"),
        eeprom.text("address"),
        eeprom.text("data"),
        eeprom.text("read"),
        eeprom.text("write"),
        eeprom.text("master_write"));
  }

  private static Watchdog watchdog(Section watchdog) {
    return new Watchdog(
        watchdog.text("control"),
        watchdog.words("timeouts_ms", Integer::decode, "whole numbers"),
        watchdog.text("reset_flags"),
        watchdog.has("guard") ? Optional.of(watchdog.text("guard")) : Optional.empty(),
        watchdog.optional(
            "interrupt", wake -> new Watchdog.Interrupt(wake.text("bit"), wake.text("vector"))));
  }

  private static Sleep sleep(Section sleep) {
    return new Sleep(
        sleep.text("control"), sleep.text("enable"), sleep.text("idle"), sleep.text("power_down"));
  }

  /**
   * Bits by divider. Written as the stem of the bits, then the dividers by the value of those bits,
   * from 1 on: {@code CS0 1 8 64} says that 64 is {@code (1 << CS01) | (1 << CS00)}.
   */
  private static SortedMap<Integer, String> byDivider(Section section, String key) {
    return section
        .parsed(key, HardwareReader::byDivider, "a stem of bits, then dividers, such as CS0 1 8 64")
        .orElseGet(TreeMap::new);
  }

  private static SortedMap<Integer, String> byDivider(String text) {
    List<String> words = List.of(text.split(" "));
    SortedMap<Integer, String> bits = new TreeMap<>();
    for (int value = 1; value < words.size(); value++) {
      bits.put(Integer.valueOf(words.get(value)), bits(words.get(0), value));
    }
    return bits;
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

  /** A register and a bit of it, written {@code TIFR1.OCF1A}. */
  private static Bit bit(Section section, String key) {
    return section
        .parsed(key, HardwareReader::split, "a register and its bit such as TIFR1.OCF1A")
        .orElse(new Bit("", ""));
  }

  private static Bit split(String text) {
    int dot = text.indexOf('.');
    if (dot <= 0 || dot == text.length() - 1) {
      throw new IllegalArgumentException(text);
    }
    return new Bit(text.substring(0, dot), text.substring(dot + 1));
  }

  private record Bit(String register, String name) {}

  private static List<String> words(Enum<?>[] values) {
    return Arrays.stream(values)
        .map(value -> value.name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .toList();
  }
}
