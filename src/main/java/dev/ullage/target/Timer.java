package dev.ullage.target;

import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;

/**
 * A timer that counts to a top value and starts over, by the names that the toolchain's device
 * header has for its registers and bits.
 *
 * @param bits 8 or 16
 * @param mode register to bits that make it clear on compare match, clock select left out
 * @param clockRegister where the clock select bits are
 * @param clockSelect prescaler to bits: {@code 64 -> "(1 << CS01) | (1 << CS00)"}
 * @param count counter register
 * @param top register that holds the top value
 * @param flagRegister, flagBit set on a match, cleared by writing one
 * @param maskRegister, maskBit, vector its interrupt
 * @param toggle pin that the match can toggle by hardware
 */
public record Timer(
    String name,
    int bits,
    Map<String, String> mode,
    String clockRegister,
    SortedMap<Integer, String> clockSelect,
    String count,
    String top,
    String flagRegister,
    String flagBit,
    String maskRegister,
    String maskBit,
    String vector,
    Optional<Toggle> toggle) {

  /** A pin that hardware toggles on each match, while the bits are set in the register. */
  public record Toggle(String pin, String register, String bits, Optional<String> compare) {}
}
