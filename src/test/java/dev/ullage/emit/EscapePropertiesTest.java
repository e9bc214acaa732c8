package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

/** Whatever a loop is called, compilers, make and shells see one harmless text. */
class EscapePropertiesTest {
  private static final String[] HOSTILE = {
    "*/",
    "/*",
    "//",
    "*",
    "/",
    "?",
    "??/",
    "??",
    "\\",
    "\\\n",
    "\n",
    "\r",
    "\t",
    "\0",
    "\"",
    "'",
    "$",
    "$(shell touch broken)",
    "$$",
    "#",
    "`touch broken`",
    ";touch broken;",
    "|",
    "&",
    "<b>",
    "\u202E",
    "\u2028",
    "\uFEFF",
    "\uD800",
    "\uDC00",
    "ü",
    "冷",
    "🐝",
    "a",
    "1",
    " ",
    "%",
    "~",
    "!",
    "(",
    ")",
    "{",
    "}",
    "[",
    "]",
    "-",
    ".",
    ":",
    "=",
    ",",
    "*\\",
    "/ ",
    "endef",
    "include x",
    "+@-"
  };

  private static Path folder = Path.of("");

  @BeforeContainer
  static void createFolder() throws IOException {
    folder = Files.createTempDirectory("escape");
  }

  @AfterContainer
  static void deleteFolder() throws IOException {
    for (String name : List.of("all.c", "all", "Makefile")) {
      Files.deleteIfExists(folder.resolve(name));
    }
    Files.delete(folder); // fails if a text has made a file of its own
  }

  @Provide
  Arbitrary<String> hostile() {
    Arbitrary<String> part =
        Arbitraries.oneOf(Arbitraries.of(HOSTILE), Arbitraries.strings().ofMaxLength(3));
    return part.list().ofMaxSize(8).map(parts -> String.join("", parts));
  }

  @Provide
  Arbitrary<List<String>> hostileTexts() {
    return hostile().list().ofSize(100);
  }

  @Property(tries = 20)
  void cCompilesCleanlyAndStringsComeOutByteForByte(@ForAll("hostileTexts") List<String> texts)
      throws IOException {
    Tool.require("cc");
    StringBuilder c =
        new StringBuilder("#include <stdio.h>\nint main(void)\n{\n    int seen = 0;\n");
    ByteArrayOutputStream expected = new ByteArrayOutputStream();
    for (String text : texts) {
      c.append("    /* ").append(Escape.cComment(text)).append(" */ seen++;\n");
      c.append("    /*\n     * ").append(Escape.cComment(text)).append("\n     */ seen++;\n");
      String literal = Escape.cString(text);
      c.append("    fwrite(").append(literal).append(", 1, sizeof ").append(literal);
      c.append(" - 1, stdout);\n");
      expected.write(text.getBytes(StandardCharsets.UTF_8));
    }
    c.append("    return seen == ").append(2 * texts.size()).append(" ? 0 : 1;\n}\n");
    Files.writeString(folder.resolve("all.c"), Templates.tidy(c.toString()));
    Tool.output(
        folder,
        "cc",
        "-std=c99",
        "-Wall",
        "-Wextra",
        "-Wpedantic",
        "-Werror",
        "-Wtrigraphs",
        "-o",
        "all",
        "all.c");
    byte[] printed = Tool.output(folder, "./all").getBytes(StandardCharsets.ISO_8859_1);
    assertArrayEquals(expected.toByteArray(), printed);
  }

  @Property(tries = 20)
  void makeAndTheShellTakeTextsAsTheyAre(@ForAll("hostileTexts") List<String> texts)
      throws IOException {
    Tool.require("make", "sh");
    StringBuilder makefile = new StringBuilder();
    StringBuilder recipe = new StringBuilder("all:\n");
    List<String> expected = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      String text = texts.get(i);
      String line = plain(text);
      makefile.append("# ").append(Escape.makeComment(text)).append('\n');
      makefile.append("export V").append(i).append(" := ").append(Escape.makeValue(text));
      makefile.append('\n');
      recipe.append("\t@printf '%s\\n' \"$$V").append(i).append("\" ");
      recipe.append(Escape.shellWord(text).replace("$", "$$")).append('\n');
      expected.add(line);
      expected.add(line);
    }
    Files.writeString(folder.resolve("Makefile"), makefile.append(recipe));
    String printed = Tool.output(folder, "make", "-s");
    String inUtf8 =
        new String(printed.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
    assertEquals(String.join("\n", expected) + "\n", inUtf8);
  }

  @Property
  void markdownHasNoTagNoEntityAndOneLine(@ForAll("hostile") String text) {
    String escaped = Escape.markdown(text);
    assertFalse(escaped.contains("<") || escaped.contains(">") || escaped.contains("\n"));
    assertFalse(escaped.matches(".*&(?!amp;|lt;|gt;).*"), escaped);
    assertFalse(escaped.matches(".*(?<!\\\\)(\\\\\\\\)*[`*_\\[\\]|~].*"), escaped);
  }

  @Property
  void folderNameIsAPlainNameAndStaysOne(@ForAll("hostile") String text) {
    String name = Escape.folderName(text);
    assertTrue(name.matches("[a-z0-9]+(-[a-z0-9]+)*"), name);
    assertEquals(name, Escape.folderName(name));
  }

  /** What a text is on one line: computed here on its own, one code point after the other. */
  private static String plain(String text) {
    StringBuilder line = new StringBuilder();
    text.codePoints()
        .map(
            c ->
                String.valueOf(Character.toChars(c)).matches("[\\p{L}\\p{M}\\p{N}\\p{P}\\p{S}]")
                    ? c
                    : ' ')
        .forEach(line::appendCodePoint);
    return line.toString().trim().replaceAll(" +", " ");
  }
}
