package dev.ullage.report;

import com.fasterxml.jackson.core.SerializableString;
import com.fasterxml.jackson.core.io.CharacterEscapes;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Writes the three characters that begin something in HTML as {@code \}{@code uXXXX} in JSON. */
final class HtmlEscapes extends CharacterEscapes {
  private static final long serialVersionUID = 1L;

  private final int[] escapes = CharacterEscapes.standardAsciiEscapesForJSON();

  HtmlEscapes() {
    for (char c : new char[] {'<', '>', '&'}) {
      escapes[c] = CharacterEscapes.ESCAPE_STANDARD;
    }
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
