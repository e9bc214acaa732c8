package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LedgerTest {
  @TempDir Path folder;

  @Test
  void firstRowOfARun_dropsTheRunBefore_laterOnesAdd() throws IOException {
    Path file = Files.writeString(folder.resolve("bilge.tsv"), "of an earlier run\n");

    Ledger.row(file, "attiny85", 12, "two\tin\none");
    Ledger.row(file, "atmega8", 34, "plain");

    assertEquals(
        List.of(List.of("attiny85", "12", "two in one"), List.of("atmega8", "34", "plain")),
        Ledger.rows(file));
  }

  @Test
  void rowsOfManyThreads_areAllThere() throws IOException {
    Path file = folder.resolve("hive.tsv");

    IntStream.range(0, 500).parallel().forEach(i -> Ledger.row(file, i));

    Set<String> seen = new TreeSet<>(Files.readAllLines(file));
    assertEquals(500, seen.size());
  }
}
