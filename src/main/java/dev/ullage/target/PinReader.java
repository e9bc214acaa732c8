package dev.ullage.target;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads pins. They are written as words: {@code PB3 channel=3 crystal clock-in}. */
final class PinReader {
  /** {@code PB3}, {@code PA13}, {@code PIO0_14}, {@code P0.07}, {@code GPIO7}. */
  private static final Pattern NAME = Pattern.compile("[A-Z]+?([A-Z]|[0-9](?=[_.]))?[_.]?([0-9]+)");

  private static final Set<String> ROLES =
      Set.of(
          "sda",
          "scl",
          "transmit",
          "crystal",
          "clock-in",
          "debug",
          "reset",
          "boot-low",
          "boot-high");
  private static final String CHANNEL = "channel=";
  private static final String PINS_PER_PORT = "pins_per_port";
  private static final List<String> REACHES = List.of("bit", "io", "memory");

  /** By port; a port that is not there is within reach of single-bit instructions. */
  private final Map<String, Integer> reaches;

  /** 0 where a port does not handle pins by number. */
  private final int perPort;

  private PinReader(Map<String, Integer> reaches, int perPort) {
    this.reaches = reaches;
    this.perPort = perPort;
  }

  static Map<String, Pin> pins(Section root) {
    PinReader reader =
        new PinReader(
            root.has("reach")
                ? root.section("reach", ports -> ports.each(port -> ports.choice(port, REACHES)))
                : Map.of(),
            root.has(PINS_PER_PORT) ? root.integer(PINS_PER_PORT) : 0);
    Map<String, Pin> all = new LinkedHashMap<>();
    root.elements("pins", reader::pin, "a pin such as `PB3 channel=3 crystal`")
        .forEach(
            pin -> {
              if (all.put(pin.name(), pin) != null) {
                root.reject("pins", pin.name() + " twice", "a list of each pin once");
              }
            });
    return all;
  }

  private Pin pin(String text) {
    List<String> words = new ArrayList<>(List.of(text.split(" ")));
    Matcher name = NAME.matcher(words.remove(0));
    if (!name.matches()) {
      throw new IllegalArgumentException(text);
    }
    OptionalInt channel = OptionalInt.empty();
    if (!words.isEmpty() && words.get(0).startsWith(CHANNEL)) {
      channel = OptionalInt.of(Integer.parseInt(words.remove(0).substring(CHANNEL.length())));
    }
    if (!ROLES.containsAll(words)) {
      throw new IllegalArgumentException(text);
    }
    String port = name.group(1) == null || isWord(name) ? " " : name.group(1);
    int bit = Integer.parseInt(name.group(2));
    int width = perPort > 0 ? perPort : Byte.SIZE;
    if (bit >= width) {
      throw new IllegalArgumentException(text);
    }
    return new Pin(
        name.group(),
        port.charAt(0),
        bit,
        perPort > 0 ? place(port.charAt(0)) * perPort + bit : bit,
        perPort > 0 ? Pin.Reach.NUMBER : Pin.Reach.values()[reaches.getOrDefault(port, 0)],
        channel,
        words);
  }

  /** The letters before the number of {@code GPIO7} are a word, and none of them is a port. */
  private static boolean isWord(Matcher name) {
    return name.start(1) > 1 && Character.isLetter(name.group(1).charAt(0));
  }

  /** Of a port: A is 0, and so is that of a part with one port. */
  private static int place(char port) {
    return port == ' ' ? 0 : Character.isDigit(port) ? port - '0' : port - 'A';
  }
}
