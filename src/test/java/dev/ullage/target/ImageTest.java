package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import org.junit.jupiter.api.Test;

class ImageTest {
  private static final List<Target> TARGETS = Catalogue.fromFiles().targets();

  @Test
  void image_givesTheCatalogueBack() {
    assertEquals(TARGETS, ImageReader.read(ImageWriter.write(TARGETS)));
  }

  @Test
  void family_isOneAndTheSameForItsTargets() {
    List<Target> read = ImageReader.read(ImageWriter.write(TARGETS));
    for (int i = 1; i < read.size(); i++) {
      if (read.get(i).family().equals(read.get(i - 1).family())) {
        assertSame(read.get(i - 1).family(), read.get(i).family());
      }
    }
  }
}
