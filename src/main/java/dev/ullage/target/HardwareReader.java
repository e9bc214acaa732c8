package dev.ullage.target;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what the targets of a family have in common: pins and registers. */
final class HardwareReader {
  private static final List<String> REACHES = words(Pin.Reach.values());
  private static final List<String> KINDS = words(BusPort.Kind.values());

  private HardwareReader() {}

  static Family family(Section root) {
    return new Family(
        root.text("family"),
        root.text("title"),
        root.text("port"),
        root.named("pins", HardwareReader::pin),
        root.list("timers", HardwareReader::timer),
        root.optional("converter", HardwareReader::converter),
        root.optional("serial", HardwareReader::serialPort),
        root.section("two_wire", HardwareReader::busPort),
        root.optional("eeprom", HardwareReader::eeprom),
        root.section("watchdog", HardwareReader::watchdog),
        root.section("sleep", HardwareReader::sleep));
  }

  private static Pin pin(String name, Section pin) {
    int reach = pin.has("reach") ? pin.choice("reach", REACHES) : Pin.Reach.BIT.ordinal();
    OptionalInt channel =
        pin.has("channel") ? OptionalInt.of(pin.integer("channel")) : OptionalInt.empty();
    List<String> roles = pin.has("roles") ? names(pin, "roles") : List.of();
    if (!name.matches("P[A-Z][0-7]")) {
      pin.rejectName("named like a port pin, such as PB0");
      return new Pin(name, '?', 0, Pin.Reach.BIT, channel, roles);
    }
    int bit = name.charAt(2) - '0';
    return new Pin(name, name.charAt(1), bit, Pin.Reach.values()[reach], channel, roles);
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
    BusPort.Kind kind = BusPort.Kind.values()[bus.choice("kind", KINDS)];
    return new BusPort(
        kind, kind == BusPort.Kind.CONTROLLER ? Optional.of(registers(bus)) : Optional.empty());
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
        watchdog.elements("timeouts_ms", Integer::decode, "a list of whole numbers"),
        watchdog.text("reset_flags"),
        watchdog.optional(
            "interrupt", wake -> new Watchdog.Interrupt(wake.text("bit"), wake.text("vector"))));
  }

  private static Sleep sleep(Section sleep) {
    return new Sleep(
        sleep.text("control"), sleep.text("enable"), sleep.text("idle"), sleep.text("power_down"));
  }

  private static SortedMap<Integer, String> byDivider(Section section, String key) {
    return section.section(key, bits -> new TreeMap<>(bits.numbered(Integer::decode, bits::text)));
  }

  static List<String> names(Section section, String key) {
    return section.elements(key, name -> name, "a list of names");
  }

  /** A register and a bit of it, written {@code TIFR1.OCF1A}. */
  private static Bit bit(Section section, String key) {
    return section
        .parsed(key, HardwareReader::split, "a register and its bit such as TIFR1.OCF1A")
        .orElse(new Bit("", ""));
  }

  private static Bit split(String text) {
    String[] parts = text.split("\\.", -1);
    if (parts.length != 2) {
      throw new IllegalArgumentException(text);
    }
    return new Bit(parts[0], parts[1]);
  }

  private record Bit(String register, String name) {}

  private static List<String> words(Enum<?>[] values) {
    return Arrays.stream(values)
        .map(value -> value.name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .toList();
  }
}
