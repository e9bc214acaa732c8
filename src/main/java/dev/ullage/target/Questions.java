package dev.ullage.target;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Everything about a target that its device header can confirm. */
final class Questions {
  private static final Pattern NAME = Pattern.compile("[A-Za-z_]\\w*");

  private Questions() {}

  static List<Question> about(Target target) {
    List<Question> all = new ArrayList<>();
    all.addAll(memories(target));
    all.addAll(core(target));
    all.addAll(peripherals(target.family()));
    target.family().pins().values().forEach(pin -> all.addAll(pin(pin)));
    names(target.family()).forEach(name -> all.add(Question.defined(name)));
    return all;
  }

  private static List<Question> memories(Target target) {
    return List.of(
        Question.value("flash bytes", "FLASHEND + 1", target.flashBytes()),
        Question.value("start of RAM", "RAMSTART", target.ramStart()),
        Question.value("RAM bytes", "RAMEND + 1 - RAMSTART", target.ramBytes()),
        Question.value("EEPROM bytes", "E2END + 1", target.eepromBytes()),
        Question.value(
            "bytes of the vectors",
            "_VECTORS_SIZE",
            (long) target.vectors() * target.vectorBytes()));
  }

  private static List<Question> core(Target target) {
    return List.of(
        Question.value("core", "__AVR_ARCH__", Long.parseLong(target.core().substring(3))),
        Question.presence(
            "8-bit stack pointer", target.stackPointerBits() == 8, "defined(__AVR_HAVE_8BIT_SP__)"),
        Question.presence(
            "return address of three bytes",
            target.returnAddressBytes() == 3,
            "defined(__AVR_3_BYTE_PC__)"),
        Question.presence(
            "clock prescaler", !target.clock().settings().isEmpty(), "defined(CLKPR)"));
  }

  /** Both ways: what the header has and the catalogue lacks is as wrong as the reverse. */
  private static List<Question> peripherals(Family family) {
    BusPort.Kind bus = family.busPort().kind();
    return List.of(
        Question.presence(
            "two-wire controller",
            bus == BusPort.Kind.CONTROLLER,
            "defined(TWBR) && defined(TWCR)"),
        Question.presence(
            "two-wire target",
            bus == BusPort.Kind.TARGET_ONLY || bus == BusPort.Kind.TARGET_ONLY_AND_USI,
            "defined(TWSCRA)"),
        Question.presence(
            "universal serial interface",
            bus == BusPort.Kind.USI || bus == BusPort.Kind.TARGET_ONLY_AND_USI,
            "defined(USICR)"),
        Question.presence(
            "serial port",
            family.serialPort().isPresent(),
            "defined(UCSRA) || defined(UCSR0A) || defined(UCSR1A)"),
        Question.presence("converter", family.converter().isPresent(), "defined(ADCSRA)"),
        Question.presence("EEPROM", family.keeping().isPresent(), "defined(EECR)"),
        Question.presence(
            "watchdog interrupt",
            family.watchdog().nap().isPresent(),
            "defined(WDT_vect) || defined(WDT_OVERFLOW_vect) || defined(WATCHDOG_vect)"),
        Question.presence(
            "watchdog of ten timeouts",
            family.watchdog().timeoutsMs().size() == 10,
            "defined(WDP3)"));
  }

  private static List<Question> pin(Pin pin) {
    String port = "PORT" + pin.port();
    String distance =
        switch (pin.reach()) {
          case BIT -> port + " <= 0x3F";
          case IO -> port + " > 0x3F && " + port + " <= 0x5F";
          case MEMORY -> port + " > 0x5F";
          case NUMBER -> "1";
        };
    String bit = "defined(" + pin.name() + ") || defined(" + port + pin.bit() + ')';
    return List.of(
        new Question("pin " + pin.name(), bit, "undefined", "defined"),
        new Question("reach of " + port, distance, port, pin.reach().name()));
  }

  /** Every register, bit and vector that a family names, each once. */
  private static Set<String> names(Family family) {
    Set<String> names = new LinkedHashSet<>();
    texts(family)
        .forEach(text -> NAME.matcher(text).results().forEach(match -> names.add(match.group())));
    return names;
  }

  private static Stream<String> texts(Family family) {
    return Stream.of(
            family.timers().stream().flatMap(Questions::texts),
            family.converter().stream()
                .flatMap(c -> Stream.concat(in(c.registers()), c.prescale().values().stream())),
            family.serialPort().stream().flatMap(port -> in(port.registers())),
            family.busPort().controller().stream().flatMap(bus -> in(bus.registers())),
            family.keeping().stream().flatMap(keeping -> in(keeping.registers())),
            in(family.watchdog().registers()),
            in(family.sleep().registers()))
        .flatMap(texts -> texts);
  }

  private static Stream<String> texts(Timer timer) {
    return Stream.of(
            in(timer.registers()),
            timer.toggle().stream().flatMap(toggle -> in(toggle.registers())),
            timer.mode().keySet().stream(),
            timer.mode().values().stream(),
            timer.clockSelect().values().stream())
        .flatMap(texts -> texts);
  }

  private static Stream<String> in(Map<String, String> registers) {
    return registers.values().stream();
  }
}
