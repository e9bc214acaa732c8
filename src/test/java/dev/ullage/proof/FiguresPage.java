package dev.ullage.proof;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The published figures: the part of DEVELOPERS.md between two comments, written by machine. */
final class FiguresPage {
  static final Path FILE = Path.of("DEVELOPERS.md");

  private static final String BEGIN = "<!-- figures: begin -->\n";
  private static final String END = "<!-- figures: end -->\n";

  private FiguresPage() {}

  /** Puts what the ledger holds on the page; says what is missing and leaves the page otherwise. */
  static String write() throws IOException {
    List<FigureTable> tables = new ArrayList<>(Figures.all(Ledger::rows));
    tables.add(new FigureTable("Tools", FigureTable.columns("tool | version"), Tools.versions()));
    List<String> empty =
        tables.stream().filter(each -> each.rows().isEmpty()).map(FigureTable::title).toList();
    if (!empty.isEmpty()) {
      return "Figures not written, because nothing was measured for: " + String.join("; ", empty);
    }
    Files.writeString(FILE, with(Files.readString(FILE), markdown(tables)));
    return "Figures written to " + FILE;
  }

  static String markdown(List<FigureTable> tables) {
    return tables.stream().map(FigureTable::markdown).collect(Collectors.joining("\n"));
  }

  /** The figures on a page. */
  static String on(String page) {
    return page.substring(begin(page), end(page));
  }

  /** The page with other figures. */
  static String with(String page, String figures) {
    return page.substring(0, begin(page)) + figures + page.substring(end(page));
  }

  private static int begin(String page) {
    return place(page, BEGIN) + BEGIN.length();
  }

  private static int end(String page) {
    return place(page, END);
  }

  private static int place(String page, String marker) {
    int place = page.indexOf(marker);
    if (place < 0) {
      throw new IllegalArgumentException("The page lacks `" + marker.strip() + "`.");
    }
    return place;
  }
}
