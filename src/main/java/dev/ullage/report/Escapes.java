package dev.ullage.report;

import com.fasterxml.jackson.core.SerializableString;
import com.fasterxml.jackson.core.io.CharacterEscapes;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Writes further characters of ASCII as {@code \}{@code uXXXX} in JSON. */
final class Escapes extends CharacterEscapes {
  private static final long serialVersionUID = 1L;

  private final int[] escapes = CharacterEscapes.standardAsciiEscapesForJSON();

  Escapes(String characters) {
    characters.chars().forEach(c -> escapes[c] = CharacterEscapes.ESCAPE_STANDARD);
  }

  @Override
  public int[] getEscapeCodesForAscii() {
    return Arrays.copyOf(escapes, escapes.length);
  }

  /** Never asked for: there is no custom escape. */
  @Override
  public @Nullable SerializableString getEscapeSequence(int c) {
    return null;
  }
}
