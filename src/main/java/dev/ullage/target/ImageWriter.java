package dev.ullage.target;

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
  private final Map<String, Integer> texts = new LinkedHashMap<>();
  private final ByteArrayOutputStream body = new ByteArrayOutputStream();

  private ImageWriter() {}

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
    ImageWriter image = new ImageWriter();
    image.all(records.texts.keySet(), image::letters);
    image.body.writeBytes(records.body.toByteArray());
    return image.body.toByteArray();
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
    text(family.port());
    all(family.pins().values(), this::pin);
    all(family.timers(), this::timer);
    optional(family.converter(), this::converter);
    optional(family.serialPort(), this::serialPort);
    busPort(family.busPort());
    optional(family.eeprom(), this::eeprom);
    watchdog(family.watchdog());
    sleep(family.sleep());
    List<Clock> clocks = targets.stream().map(Target::clock).distinct().toList();
    all(clocks, this::clock);
    List<Package> packages =
        targets.stream().flatMap(target -> target.packages().stream()).distinct().toList();
    all(packages, this::packaged);
    all(targets, target -> target(target, clocks, packages));
  }

  private void target(Target target, List<Clock> clocks, List<Package> packages) {
    text(target.name());
    text(target.title());
    text(target.core());
    number(target.stackPointerBits());
    number(target.returnAddressBytes());
    number(target.flashBytes());
    number(target.ramBytes());
    number(target.ramStart());
    number(target.eepromBytes());
    number(target.vectors());
    number(target.vectorBytes());
    number(clocks.indexOf(target.clock()));
    all(target.packages(), sold -> number(packages.indexOf(sold)));
  }

  private void pin(Pin pin) {
    text(pin.name());
    number(pin.port());
    number(pin.bit());
    number(pin.reach().ordinal());
    number(pin.converterChannel().isPresent() ? 1 : 0);
    pin.converterChannel().ifPresent(this::number);
    all(pin.roles(), this::text);
  }

  private void timer(Timer timer) {
    text(timer.name());
    number(timer.bits());
    all(timer.mode().entrySet(), bits -> texts(bits.getKey(), bits.getValue()));
    text(timer.clockRegister());
    dividers(timer.clockSelect());
    texts(timer.count(), timer.top(), timer.flagRegister(), timer.flagBit());
    texts(timer.maskRegister(), timer.maskBit(), timer.vector());
    optional(
        timer.toggle(),
        toggle -> {
          texts(toggle.pin(), toggle.register(), toggle.bits());
          optional(toggle.compare(), this::text);
        });
  }

  private void converter(Converter c) {
    number(c.bits());
    texts(c.select(), c.reference(), c.control(), c.enable(), c.start(), c.result());
    dividers(c.prescale());
    number(c.clockMaxHz());
  }

  private void serialPort(SerialPort port) {
    texts(port.name(), port.status(), port.empty(), port.doubleSpeed(), port.control());
    texts(port.transmit(), port.data(), port.baudLow(), port.baudHigh(), port.pin());
  }

  private void busPort(BusPort port) {
    number(port.kind().ordinal());
    optional(
        port.registers(),
        r -> texts(r.bitRate(), r.control(), r.data(), r.status(), r.vector(), r.sda(), r.scl()));
  }

  private void eeprom(Eeprom e) {
    texts(e.control(), e.address(), e.data(), e.read(), e.write(), e.masterWrite());
  }

  private void watchdog(Watchdog watchdog) {
    text(watchdog.control());
    all(watchdog.timeoutsMs(), (Integer ms) -> number(ms));
    text(watchdog.resetFlags());
    optional(watchdog.guard(), this::text);
    optional(watchdog.interrupt(), interrupt -> texts(interrupt.bit(), interrupt.vector()));
  }

  private void sleep(Sleep sleep) {
    texts(sleep.control(), sleep.enable(), sleep.idle(), sleep.powerDown());
  }

  private void clock(Clock clock) {
    number(clock.factoryHz());
    all(clock.internalHz(), this::number);
    number(clock.prescaler() ? 1 : 0);
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
