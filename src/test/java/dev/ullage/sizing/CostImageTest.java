package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CostImageTest {
  private static final Path FOLDER = Path.of("targets/costs");

  @Test
  void image_givesEveryTableBack() throws IOException {
    CostImage image = new CostImage(CostImage.of(FOLDER));
    List<Path> files;
    try (Stream<Path> all = Files.list(FOLDER)) {
      files = all.toList();
    }
    assertTrue(files.size() > 1);
    for (Path file : files) {
      assertEquals(
          Files.readString(file, StandardCharsets.ISO_8859_1),
          image.file(file.getFileName().toString()).orElseThrow());
    }
  }

  @Test
  void unknownTable_isEmpty() throws IOException {
    assertTrue(new CostImage(CostImage.of(FOLDER)).file("avr99.tsv").isEmpty());
  }
}
