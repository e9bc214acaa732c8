package dev.ullage.input;

import java.util.Optional;

/**
 * One thing wrong in an input file, in facts that a person can act on.
 *
 * @param file name as the user gave it
 * @param line from 1; 0 where the file as a whole is meant
 * @param column from 1; 0 where the line as a whole is meant
 * @param key path of the key, such as {@code sensor.address}, or words such as {@code the line};
 *     empty where the file itself is meant
 * @param found what stands there, such as {@code 0x90} or {@code missing}
 * @param expected what had to stand there: continues a sentence that begins "must be"
 * @param cure what most likely helps, where the mistake is a known one
 */
public record Finding(
    String file,
    int line,
    int column,
    String key,
    String found,
    String expected,
    Optional<String> cure) {

  /**
   * The finding as one line, {@code FILE:LINE:COLUMN: `KEY` must be EXPECTED, but was FOUND; CURE},
   * safe to print on a terminal whatever the file held.
   */
  public String text() {
    String subject = key.isEmpty() ? "the file" : key.startsWith("the ") ? key : '`' + key + '`';
    String sentence = place() + ": " + subject + " must be " + expected + ", but was " + found;
    return Printable.of(sentence + cure.map(help -> "; " + help).orElse(""));
  }

  private String place() {
    if (line == 0) {
      return file;
    }
    return column == 0 ? file + ':' + line : file + ':' + line + ':' + column;
  }

  @Override
  public String toString() {
    return text();
  }
}
