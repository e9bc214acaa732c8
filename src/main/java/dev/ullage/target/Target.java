package dev.ullage.target;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A part of the catalogue for which there is a port.
 *
 * @param name the part's own name in lower case, as the compiler takes it: {@code attiny85}
 * @param title the name as its maker writes it: {@code ATtiny85}
 * @param toolchain instruction set and ABI that share cost tables, and the compiler for them
 * @param stackPointerBits 8, 16 or 32; parts with an 8-bit stack pointer compile to other code
 * @param flashStart, flashBytes program memory, boot section included
 * @param flashBeside whether program memory is a chip beside the part, which has none of its own
 * @param ramBytes main static RAM, registers excluded
 * @param eepromBytes data EEPROM
 * @param vectors interrupt vectors, reset included
 * @param vectorBytes bytes of one vector
 * @param clock what it can run at
 * @param packages the packages it is sold in, friendliest first
 */
public record Target(
    String name,
    String title,
    Family family,
    Core toolchain,
    int stackPointerBits,
    int flashStart,
    int flashBytes,
    boolean flashBeside,
    int ramBytes,
    int ramStart,
    int eepromBytes,
    int vectors,
    int vectorBytes,
    Clock clock,
    List<Package> packages,
    Map<String, String> sources)
    implements Part {

  public Target {
    packages = List.copyOf(packages);
    sources = Map.copyOf(sources);
  }

  /** Targets with the same class compile portable code to the same bytes. */
  public String codeClass() {
    return stackPointerBits == 8 ? core() + "-sp8" : core();
  }

  @Override
  public String core() {
    return toolchain.name();
  }

  /** What a call puts on the stack by itself. */
  public int returnAddressBytes() {
    return toolchain.returnAddressBytes();
  }

  /** The package that it is planned for. */
  public Optional<Package> firstPackage() {
    return packages.isEmpty() ? Optional.empty() : Optional.of(packages.get(0));
  }

  /** The pins that the part has in its first package, in the order in which they are handed out. */
  public List<Pin> pins() {
    return family.pins().values().stream().filter(this::leadsOut).toList();
  }

  /** Whether the first package has that pin; without packages, there are all pins. */
  public boolean leadsOut(Pin pin) {
    return packages.isEmpty() || packages.get(0).pins().contains(pin.name());
  }

  @Override
  public String familyName() {
    return family.name();
  }

  @Override
  public String familyTitle() {
    return family.title();
  }

  @Override
  public OptionalInt flash() {
    return OptionalInt.of(flashBytes);
  }

  @Override
  public int ram() {
    return ramBytes;
  }

  @Override
  public OptionalInt eeprom() {
    return OptionalInt.of(eepromBytes);
  }

  @Override
  public Optional<Rating> rating() {
    return Optional.of(new Rating(clock.maxHz(), clock.supplyMin(), clock.supplyMax()));
  }

  @Override
  public Optional<BusPort.Kind> busKind() {
    return Optional.of(family.busPort().kind());
  }

  @Override
  public List<String> packageNames() {
    return packages.stream().map(Package::name).toList();
  }
}
