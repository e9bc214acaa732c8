package dev.ullage.report;

import java.util.List;

/** Columns and rows of cells, before anything is decided about their looks. */
record Table(List<Column> columns, List<List<String>> rows) {

  Table {
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /**
   * One column.
   *
   * @param title may have several lines
   * @param right set to the right, as numbers are
   */
  record Column(String title, boolean right) {
    static Column left(String title) {
      return new Column(title, false);
    }

    static Column right(String title) {
      return new Column(title, true);
    }
  }
}
