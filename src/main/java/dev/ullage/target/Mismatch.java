package dev.ullage.target;

/**
 * One fact in which the toolchain and the catalogue differ.
 *
 * @param target name of the part
 * @param what the fact is about, such as {@code flash bytes}
 * @param found what the toolchain has
 * @param expected what the catalogue has
 */
public record Mismatch(String target, String what, String found, String expected) {

  @Override
  public String toString() {
    return target + ": " + what + ": the toolchain has " + found + ", the catalogue " + expected;
  }
}
