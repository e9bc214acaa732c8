package dev.ullage.target;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A part of the catalogue for which there is a port.
 *
 * @param name the part's own name in lower case, as the compiler takes it: {@code attiny85}
 * @param title the name as its maker writes it: {@code ATtiny85}
 * @param core instruction set and ABI that share cost tables: {@code avr25}
 * @param stackPointerBits 8 or 16; parts with an 8-bit stack pointer compile to other code
 * @param returnAddressBytes what a call puts on the stack
 * @param flashBytes program memory, boot section included
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
    String core,
    int stackPointerBits,
    int returnAddressBytes,
    int flashBytes,
    int ramBytes,
    int ramStart,
    int eepromBytes,
    int vectors,
    int vectorBytes,
    Clock clock,
    List<Package> packages)
    implements Part {

  public Target {
    packages = List.copyOf(packages);
  }

  /** Targets with the same class compile portable code to the same bytes. */
  public String codeClass() {
    return stackPointerBits == 8 ? core + "-sp8" : core;
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
