package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import org.junit.jupiter.api.Test;

class ImageTest {
  private static final List<Part> PARTS = Catalogue.fromFiles().parts();

  @Test
  void image_givesTheCatalogueBack() {
    assertEquals(PARTS, ImageReader.read(ImageWriter.write(PARTS)));
  }

  @Test
  void family_isOneAndTheSameForItsTargets() {
    List<Target> read =
        ImageReader.read(ImageWriter.write(PARTS)).stream()
            .filter(Target.class::isInstance)
            .map(Target.class::cast)
            .toList();
    for (int i = 1; i < read.size(); i++) {
      if (read.get(i).family().equals(read.get(i - 1).family())) {
        assertSame(read.get(i - 1).family(), read.get(i).family());
      }
    }
  }
}
