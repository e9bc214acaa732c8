package dev.ullage.proof;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What tests measure, kept for the published figures: a file {@code target/ledger/TOPIC.tsv} for
 * each topic, a row for each measurement. The first row of a topic in a run drops what an earlier
 * run left.
 */
public final class Ledger {
  private static final Path FOLDER = Path.of("target", "ledger");

  private static final Set<Path> BEGUN = new HashSet<>();

  private Ledger() {}

  /**
   * Adds a row; safe from any thread.
   *
   * @param topic what the rows of a file are about: a word in lower case
   * @param cells as they are printed; a tab or a line end in one becomes a blank
   */
  public static void row(String topic, Object... cells) {
    row(FOLDER.resolve(topic + ".tsv"), cells);
  }

  static synchronized void row(Path file, Object... cells) {
    String line = String.join("\t", cells(cells)) + "\n";
    try {
      Files.createDirectories(file.getParent());
      if (BEGUN.add(file)) {
        Files.deleteIfExists(file);
      }
      Files.writeString(file, line, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The rows of a topic that are there, of this run or an earlier one. */
  static List<List<String>> rows(String topic) {
    return rows(FOLDER.resolve(topic + ".tsv"));
  }

  static synchronized List<List<String>> rows(Path file) {
    try {
      return Files.exists(file)
          ? Files.readAllLines(file).stream().map(line -> List.of(line.split("\t", -1))).toList()
          : List.of();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A row as it is read again. */
  static List<String> cells(Object... cells) {
    return Arrays.stream(cells).map(Ledger::cell).toList();
  }

  private static String cell(Object cell) {
    return cell.toString().replaceAll("[\t\r\n]+", " ");
  }
}
