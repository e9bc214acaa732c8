package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Supplier;

/** Reads what {@link ImageWriter} writes, in the same order. The bytes come from our own build. */
final class ImageReader {
  private static final BusPort.Kind[] KINDS = BusPort.Kind.values();
  private static final Pin.Reach[] REACHES = Pin.Reach.values();

  private final byte[] bytes;
  private final List<String> texts;
  private final List<Recipe> recipes;
  private final List<Core> cores;
  private int at;

  private ImageReader(byte[] bytes) {
    this.bytes = bytes;
    this.texts = all(this::letters);
    this.recipes = all(() -> Recipe.of(textsByText()));
    this.cores = all(this::core);
  }

  static List<Part> read(byte[] bytes) {
    ImageReader reader = new ImageReader(bytes);
    List<Part> parts = new ArrayList<>();
    for (int families = reader.number(); families > 0; families--) {
      parts.addAll(reader.number() == 1 ? reader.family() : reader.listed());
    }
    return parts;
  }

  private List<ListedPart> listed() {
    ListedFamily family = new ListedFamily(text(), text(), text());
    List<Rating> ratings = all(this::rating);
    List<Map<String, String>> sources = all(() -> Map.copyOf(textsByText()));
    return all(() -> listed(family, ratings, sources));
  }

  private ListedPart listed(
      ListedFamily family, List<Rating> ratings, List<Map<String, String>> sources) {
    return new ListedPart(
        text(),
        text(),
        family,
        orNothing(),
        number(),
        orNothing(),
        optional(() -> KINDS[number()]),
        optional(() -> ratings.get(number())),
        all(this::text),
        sources.get(number()));
  }

  private Rating rating() {
    return new Rating(longNumber(), new BigDecimal(text()), new BigDecimal(text()));
  }

  private OptionalInt orNothing() {
    return number() == 1 ? OptionalInt.of(number()) : OptionalInt.empty();
  }

  private List<Target> family() {
    Family family =
        new Family(
            text(),
            text(),
            all(this::text),
            pins(),
            all(this::timer),
            optional(this::converter),
            optional(this::serialPort),
            busPort(),
            optional(() -> new Keeping(number() == 1, textsByText())),
            watchdog(),
            new Sleep(optional(this::recipe), number(), all(this::text), textsByText()));
    List<Clock> clocks = all(this::clock);
    List<Package> packages = all(this::packaged);
    List<Map<String, String>> sources = all(() -> Map.copyOf(textsByText()));
    return all(() -> target(family, clocks, packages, sources));
  }

  private Target target(
      Family family,
      List<Clock> clocks,
      List<Package> packages,
      List<Map<String, String>> sources) {
    return new Target(
        text(),
        text(),
        family,
        cores.get(number()),
        number(),
        number(),
        number(),
        number() != 0,
        number(),
        number(),
        number(),
        number(),
        number(),
        clocks.get(number()),
        all(() -> packages.get(number())),
        sources.get(number()));
  }

  private Core core() {
    return new Core(
        text(),
        text(),
        text(),
        all(this::text),
        all(this::text),
        all(this::text),
        all(this::text),
        number(),
        recipe(),
        optional(this::recipe));
  }

  private Recipe recipe() {
    return recipes.get(number());
  }

  private Map<String, Pin> pins() {
    Map<String, Pin> pins = new LinkedHashMap<>();
    for (int left = number(); left > 0; left--) {
      String name = text();
      pins.put(name, pin(name));
    }
    return pins;
  }

  private Pin pin(String name) {
    char port = (char) number();
    int bit = number();
    int number = number();
    Pin.Reach reach = REACHES[number()];
    OptionalInt channel = number() == 1 ? OptionalInt.of(number()) : OptionalInt.empty();
    return new Pin(name, port, bit, number, reach, channel, all(this::text));
  }

  private Timer timer() {
    return new Timer(
        text(),
        number(),
        textsByText(),
        dividers(),
        optional(() -> new Timer.Toggle(routes(), number(), textsByText())),
        textsByText());
  }

  private Map<String, String> textsByText() {
    Map<String, String> texts = new LinkedHashMap<>();
    for (int left = number(); left > 0; left--) {
      texts.put(text(), text());
    }
    return texts;
  }

  private List<Route> routes() {
    return all(() -> new Route(all(this::text), textsByText()));
  }

  private Converter converter() {
    return new Converter(number(), dividers(), number(), textsByText());
  }

  private SerialPort serialPort() {
    return new SerialPort(text(), routes(), recipe(), textsByText());
  }

  private BusPort busPort() {
    return new BusPort(
        KINDS[number()], optional(() -> new BusPort.Controller(routes(), recipe(), textsByText())));
  }

  private Watchdog watchdog() {
    return new Watchdog(all(this::number), recipe(), optional(this::recipe), textsByText());
  }

  private Clock clock() {
    return new Clock(
        longNumber(),
        all(this::longNumber),
        settings(),
        number() == 1,
        all(() -> new Clock.Grade(new BigDecimal(text()), longNumber())),
        new BigDecimal(text()),
        new BigDecimal(text()));
  }

  private SortedMap<Long, Clock.Setting> settings() {
    SortedMap<Long, Clock.Setting> settings = new TreeMap<>();
    for (int left = number(); left > 0; left--) {
      settings.put(longNumber(), new Clock.Setting(text(), text()));
    }
    return settings;
  }

  private Package packaged() {
    return new Package(text(), all(this::text), all(this::text));
  }

  private SortedMap<Integer, String> dividers() {
    SortedMap<Integer, String> dividers = new TreeMap<>();
    for (int left = number(); left > 0; left--) {
      dividers.put(number(), text());
    }
    return dividers;
  }

  private <T> List<T> all(Supplier<T> each) {
    int size = number();
    List<T> all = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      all.add(each.get());
    }
    return all;
  }

  private <T> Optional<T> optional(Supplier<T> present) {
    return number() == 1 ? Optional.of(present.get()) : Optional.empty();
  }

  private String text() {
    return texts.get(number());
  }

  private String letters() {
    int length = number();
    at += length;
    return new String(bytes, at - length, length, StandardCharsets.UTF_8);
  }

  private int number() {
    return (int) longNumber();
  }

  private long longNumber() {
    long value = 0;
    int shift = 0;
    while (bytes[at] < 0) {
      value |= (bytes[at++] & 0x7fL) << shift;
      shift += 7;
    }
    return value | (long) bytes[at++] << shift;
  }
}
