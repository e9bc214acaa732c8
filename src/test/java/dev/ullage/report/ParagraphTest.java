package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class ParagraphTest {

  @Test
  void words_wrapUnderTheHead() {
    assertEquals(
        List.of("note one two", "     three"), Paragraph.lines("note ", "one two three", 12));
  }

  @Test
  void longWord_staysWhole() {
    assertEquals(List.of("abcdefgh", "i"), Paragraph.lines("", "abcdefgh i", 4));
  }

  @Test
  void noWords_giveTheHead() {
    assertEquals(List.of("pins"), Paragraph.lines("pins ", "", 12));
  }
}
