package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.Consumer;

/**
 * Writes a catalogue as the bytes that {@link ImageReader} reads: every text once, then the
 * records, component by component, with texts and shared records by number. The build packs them
 * into the jar, for the YAML files take too long to read in a run that ends at once.
 */
final class ImageWriter {
  private final Map<String, Integer> texts;
  private final List<Core> cores;
  private final List<Recipe> recipes;
  private final ByteArrayOutputStream body = new ByteArrayOutputStream();

  private ImageWriter() {
    texts = new LinkedHashMap<>();
    cores = new ArrayList<>();
    recipes = new ArrayList<>();
  }

  /** Writes to bytes of its own what refers to the same texts, cores and recipes. */
  private ImageWriter(ImageWriter other) {
    texts = other.texts;
    cores = other.cores;
    recipes = other.recipes;
  }

  /**
   * Writes the catalogue that comes with the tool to a file.
   *
   * @param args the file
   */
  public static void main(String[] args) throws IOException {
    Files.write(Path.of(args[0]), write(Catalogue.fromFiles().parts()));
  }

  static byte[] write(List<Part> parts) {
    ImageWriter records = new ImageWriter();
    Map<String, List<Part>> families = new LinkedHashMap<>();
    parts.forEach(p -> families.computeIfAbsent(p.familyName(), any -> new ArrayList<>()).add(p));
    records.all(families.values(), records::family);
    ImageWriter shared = new ImageWriter(records);
    List<Core> cores = List.copyOf(records.cores);
    shared.all(cores, shared::core);
    ImageWriter recipes = new ImageWriter(records);
    recipes.all(records.recipes, recipe -> recipes.textsByText(recipe.texts()));
    ImageWriter image = new ImageWriter(new ImageWriter());
    image.all(records.texts.keySet(), image::letters);
    for (ImageWriter each : List.of(recipes, shared, records)) {
      image.body.writeBytes(each.body.toByteArray());
    }
    return image.body.toByteArray();
  }

  private void core(Core core) {
    texts(core.name(), core.tools(), core.needs());
    all(core.flags(), this::text);
    all(core.linkFlags(), this::text);
    all(core.smallFlags(), this::text);
    all(core.libraries(), this::text);
    number(core.returnAddressBytes());
    recipe(core.bitBang());
    optional(core.bitSerial(), this::recipe);
  }

  private void recipe(Recipe recipe) {
    shared(recipes, recipe);
  }

  /** Writes the place of a thing among all such things. */
  private <T> void shared(List<T> all, T one) {
    int place = all.indexOf(one);
    if (place < 0) {
      all.add(one);
      place = all.size() - 1;
    }
    number(place);
  }

  private void textsByText(Map<String, String> texts) {
    all(texts.entrySet(), each -> texts(each.getKey(), each.getValue()));
  }

  private void family(List<Part> parts) {
    boolean hasPort = parts.get(0) instanceof Target;
    number(hasPort ? 1 : 0);
    if (hasPort) {
      family(parts.stream().map(Target.class::cast).toList(), ((Target) parts.get(0)).family());
    } else {
      listed(parts.stream().map(ListedPart.class::cast).toList());
    }
  }

  private void listed(List<ListedPart> parts) {
    ListedFamily family = parts.get(0).family();
    texts(family.name(), family.title(), family.core());
    List<Rating> ratings =
        parts.stream().flatMap(part -> part.rating().stream()).distinct().toList();
    all(ratings, this::rating);
    List<Map<String, String>> sources = parts.stream().map(ListedPart::sources).distinct().toList();
    all(sources, each -> all(new TreeMap<>(each).entrySet(), s -> texts(s.getKey(), s.getValue())));
    all(parts, part -> listed(part, ratings, sources));
  }

  private void listed(ListedPart part, List<Rating> ratings, List<Map<String, String>> sources) {
    texts(part.name(), part.title());
    orNothing(part.flash());
    number(part.ram());
    orNothing(part.eeprom());
    optional(part.busKind(), kind -> number(kind.ordinal()));
    optional(part.rating(), rating -> number(ratings.indexOf(rating)));
    all(part.packageNames(), this::text);
    number(sources.indexOf(part.sources()));
  }

  private void rating(Rating rating) {
    number(rating.maxHz());
    texts(rating.supplyMin().toString(), rating.supplyMax().toString());
  }

  private void family(List<Target> targets, Family family) {
    text(family.name());
    text(family.title());
    all(family.ports(), this::text);
    all(family.pins().values(), this::pin);
    all(family.timers(), this::timer);
    optional(family.converter(), this::converter);
    optional(family.serialPort(), this::serialPort);
    busPort(family.busPort());
    optional(family.keeping(), this::keeping);
    watchdog(family.watchdog());
    optional(family.sleep().nap(), this::recipe);
    number(family.sleep().watchdogPart());
    all(family.sleep().lostClocks(), this::text);
    registers(family.sleep().registers());
    List<Clock> clocks = targets.stream().map(Target::clock).distinct().toList();
    all(clocks, this::clock);
    List<Package> packages =
        targets.stream().flatMap(target -> target.packages().stream()).distinct().toList();
    all(packages, this::packaged);
    List<Map<String, String>> sources = targets.stream().map(Target::sources).distinct().toList();
    all(sources, this::registers);
    all(targets, target -> target(target, clocks, packages, sources));
  }

  private void target(
      Target target,
      List<Clock> clocks,
      List<Package> packages,
      List<Map<String, String>> sources) {
    text(target.name());
    text(target.title());
    shared(cores, target.toolchain());
    number(target.stackPointerBits());
    number(target.flashStart());
    number(target.flashBytes());
    number(target.flashBeside() ? 1 : 0);
    number(target.ramBytes());
    number(target.ramStart());
    number(target.eepromBytes());
    number(target.vectors());
    number(target.vectorBytes());
    number(clocks.indexOf(target.clock()));
    all(target.packages(), sold -> number(packages.indexOf(sold)));
    number(sources.indexOf(target.sources()));
  }

  private void pin(Pin pin) {
    text(pin.name());
    number(pin.port());
    number(pin.bit());
    number(pin.number());
    number(pin.reach().ordinal());
    number(pin.converterChannel().isPresent() ? 1 : 0);
    pin.converterChannel().ifPresent(this::number);
    all(pin.roles(), this::text);
  }

  private void timer(Timer timer) {
    text(timer.name());
    number(timer.bits());
    textsByText(timer.mode());
    dividers(timer.clockSelect());
    optional(
        timer.toggle(),
        toggle -> {
          routes(toggle.routes());
          number(toggle.rounds());
          registers(toggle.registers());
        });
    registers(timer.registers());
  }

  /** Their order says nothing, so it is made the same in every image. */
  private void registers(Map<String, String> registers) {
    textsByText(new TreeMap<>(registers));
  }

  private void routes(List<Route> routes) {
    all(
        routes,
        route -> {
          all(route.pins(), this::text);
          textsByText(route.words());
        });
  }

  private void converter(Converter converter) {
    number(converter.bits());
    dividers(converter.prescale());
    number(converter.clockMaxHz());
    registers(converter.registers());
  }

  private void serialPort(SerialPort port) {
    text(port.name());
    routes(port.routes());
    recipe(port.rate());
    registers(port.registers());
  }

  private void busPort(BusPort port) {
    number(port.kind().ordinal());
    optional(
        port.controller(),
        controller -> {
          routes(controller.routes());
          recipe(controller.timing());
          registers(controller.registers());
        });
  }

  private void keeping(Keeping keeping) {
    number(keeping.inFlash() ? 1 : 0);
    registers(keeping.registers());
  }

  private void watchdog(Watchdog watchdog) {
    all(watchdog.timeoutsMs(), (Integer ms) -> number(ms));
    recipe(watchdog.setting());
    optional(watchdog.nap(), this::recipe);
    registers(watchdog.registers());
  }

  private void clock(Clock clock) {
    number(clock.factoryHz());
    all(clock.internalHz(), this::number);
    all(
        clock.settings().entrySet(),
        setting -> {
          number(setting.getKey());
          texts(setting.getValue().way(), setting.getValue().number());
        });
    number(clock.fused() ? 1 : 0);
    all(
        clock.grades(),
        grade -> {
          text(grade.fromV().toString());
          number(grade.maxHz());
        });
    texts(clock.supplyMin().toString(), clock.supplyMax().toString());
  }

  private void packaged(Package sold) {
    text(sold.name());
    all(sold.pins(), this::text);
    all(sold.balls(), this::text);
  }

  private void dividers(Map<Integer, String> dividers) {
    all(
        dividers.entrySet(),
        divider -> {
          number(divider.getKey());
          text(divider.getValue());
        });
  }

  private <T> void all(Collection<? extends T> items, Consumer<T> each) {
    number(items.size());
    items.forEach(each);
  }

  private <T> void optional(Optional<T> item, Consumer<T> present) {
    number(item.isPresent() ? 1 : 0);
    item.ifPresent(present);
  }

  private void orNothing(OptionalInt value) {
    number(value.isPresent() ? 1 : 0);
    value.ifPresent(this::number);
  }

  private void texts(String... all) {
    for (String text : all) {
      text(text);
    }
  }

  private void text(String text) {
    number(texts.computeIfAbsent(text, any -> texts.size()));
  }

  private void letters(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    number(bytes.length);
    body.writeBytes(bytes);
  }

  /** Seven bits a byte, the lowest first; the eighth says that more follow. Not negative. */
  private void number(long value) {
    long rest = value;
    while (rest >= 0x80) {
      body.write((int) (rest & 0x7f | 0x80));
      rest >>= 7;
    }
    body.write((int) rest);
  }
}
