package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TemplatesTest {
  private static final Map<String, Object> MODEL =
      Map.of(
          "bytes",
          65536,
          "flag",
          true,
          "name",
          "bee */ hive",
          "points",
          List.of(new Point(4), new Point(1200)));

  /** As a template sees a record of ours. */
  public record Point(int x) {}

  @Test
  void render_isTidyAndEscapes() {
    assertEquals(
        """
        #define BYTES 65536

        /* bee * / hive true #{bytes} */
        point 4
        point 1200
        """,
        Templates.render("test/facts.ftl", MODEL));
  }

  @ParameterizedTest
  @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "tr-TR", "hi-IN-u-nu-deva"})
  void render_isTheSameInEveryLocale(String tag) {
    String expected = Templates.render("test/facts.ftl", MODEL);
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag(tag));
      assertEquals(expected, Templates.render("test/facts.ftl", MODEL));
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void render_missingVariableIsAnErrorThatNamesIt() {
    Exception e =
        assertThrows(
            IllegalStateException.class, () -> Templates.render("test/missing.ftl", Map.of()));
    assertTrue(e.getCause().getMessage().contains("missing"));
  }

  @Test
  void render_templateCannotReachOtherClasses() {
    assertThrows(IllegalStateException.class, () -> Templates.render("test/new.ftl", Map.of()));
  }

  @Test
  void tidy_leavesOneBlankLineAndOneNewlineAtTheEnd() {
    assertEquals("a\n\n\tb\n", Templates.tidy("\n \na  \r\n\n \t\n\n\tb\t\n\n\n"));
  }

  @Test
  void tidy_ofNothingIsNothing() {
    assertEquals("", Templates.tidy(" \n\t\n"));
  }

  @Test
  void tidy_keepsTheIndentOfTheFirstLine() {
    assertEquals("    a\n", Templates.tidy("\n    a"));
  }
}
