package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EscapeTest {
  @Test
  void cComment_cannotBeEndedOrOpenedAnew() {
    assertEquals("a * / b / * c * / * d", Escape.cComment("a */ b /* c */* d"));
  }

  @Test
  void cComment_holdsNoTrigraph() {
    assertEquals("what? ?/ ? ? ? ?", Escape.cComment("what??/ ????"));
  }

  @Test
  void cComment_staysOnItsLine() {
    assertEquals("a b c\\.", Escape.cComment(" a\nb\r\n\u2028 c\\\n"));
  }

  @Test
  void cComment_keepsLettersOfEveryLanguage() {
    assertEquals("kühl – 冷蔵庫 🐝", Escape.cComment("kühl – 冷蔵庫 🐝"));
  }

  @Test
  void cComment_cannotTurnTheDirectionOfWriting() {
    assertEquals("a b", Escape.cComment("a\u202E\u2066b"));
  }

  @Test
  void cString_escapesQuotesBackslashesAndTrigraphs() {
    assertEquals("\"a\\\"b\\\\n\\?\\?/\"", Escape.cString("a\"b\\n??/"));
  }

  @Test
  void cString_digitsAfterAByteAreNotSwallowed() {
    assertEquals("\"\\303\\2749\\0001\"", Escape.cString("ü9\0001"));
  }

  @ParameterizedTest
  @CsvSource({
    "$(shell x), $$(shell x)",
    "a # b, a \\# b",
    "a \\# b, a \\\\\\# b",
    "a\\b, a\\b",
    "ends\\, ends\\$()",
  })
  void makeValue_isTakenAsItIs(String text, String expected) {
    assertEquals(expected, Escape.makeValue(text));
  }

  @Test
  void makeComment_doesNotSwallowTheNextLine() {
    assertEquals("a all: b\\.", Escape.makeComment("a\nall: b\\"));
  }

  @ParameterizedTest
  @CsvSource({
    "<script>&amp;, &lt;script&gt;&amp;amp;",
    "[a](b), \\[a\\](b)",
    "`c` *d* _e_, \\`c\\` \\*d\\* \\_e\\_",
    "# title, \\# title",
    "1. item, 1\\. item",
    "12) item, 12\\) item",
    "- item, \\- item",
    "5.5 V, 5.5 V",
    "http://a.b, http\\://a.b",
    "WWW.a.b, WWW\\.a.b",
    "a|b@c.d, a\\|b\\@c.d",
    "cold-store guard (2.5), cold-store guard (2.5)",
  })
  void markdown_hasNoMarkup(String text, String expected) {
    assertEquals(expected, Escape.markdown(text));
  }

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '"',
      value = {
        "build/firmware.elf, build/firmware.elf",
        "it's; rm -rf /, 'it'\\''s; rm -rf /'",
        "$(x) `y`, '$(x) `y`'",
        "~root, '~root'",
        "--option, '--option'",
      })
  void shellWord_isOneWord(String text, String expected) {
    assertEquals(expected, Escape.shellWord(text));
  }

  @Test
  void shellWord_ofNothingIsStillAWord() {
    assertEquals("''", Escape.shellWord(""));
  }

  @ParameterizedTest
  @CsvSource({
    "Cold-Store Guard!, cold-store-guard",
    "Kühlraum, kuhlraum",
    "../../etc/passwd, etc-passwd",
    "冷蔵庫, loop",
    "NUL, nul-loop",
    "...., loop",
  })
  void folderName_isPlain(String text, String expected) {
    assertEquals(expected, Escape.folderName(text));
  }

  @Test
  void folderName_ofALongNameIsCut() {
    assertEquals("a".repeat(48), Escape.folderName("a".repeat(500)));
  }
}
