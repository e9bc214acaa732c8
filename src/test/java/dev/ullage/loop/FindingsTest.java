package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Holds every finding, its place and its cure, against the text in {@code findings.txt}. */
class FindingsTest {
  private static final String BASE = resource("findings-base.yaml");

  @Test
  void baseWithoutMistake_isRead() {
    assertEquals("guard", LoopReader.read("loop.yaml", BASE).name());
  }

  @TestFactory
  Stream<DynamicTest> mistakeInBase_isFoundWithItsCure() {
    List<String> mistakes = List.of(resource("findings.txt").strip().split("\n\n"));
    assertTrue(mistakes.size() > 80, "too few mistakes were read");
    return mistakes.stream()
        .skip(1) // the comment on top
        .map(mistake -> dynamicTest(title(mistake), () -> check(mistake)));
  }

  private static String title(String mistake) {
    return mistake
        .lines()
        .filter(line -> line.charAt(0) != '!')
        .map(line -> line.replaceAll("\\s+", " "))
        .collect(Collectors.joining(" "));
  }

  private static void check(String mistake) {
    String file = apply(mistake);
    InputException thrown =
        assertThrows(InputException.class, () -> LoopReader.read("loop.yaml", file));
    String found = thrown.findings().stream().map(Finding::text).collect(Collectors.joining("\n"));
    String expected =
        lines(mistake, '!').map(line -> "loop.yaml:" + line).collect(Collectors.joining("\n"));
    assertEquals(expected, found);
  }

  private static Stream<String> lines(String mistake, char kind) {
    return mistake.lines().filter(line -> line.charAt(0) == kind).map(line -> line.substring(2));
  }

  /** The base with each block of - lines replaced by the block of + lines below it. */
  private static String apply(String mistake) {
    String file = BASE;
    List<String> old = new ArrayList<>();
    List<String> now = new ArrayList<>();
    for (String line : (mistake + "\n! end").lines().toList()) {
      if (line.charAt(0) != '+' && !now.isEmpty() || line.charAt(0) == '!') {
        file = replace(file, text(old), text(now));
        old.clear();
        now.clear();
      }
      (line.charAt(0) == '-' ? old : now).add(line.substring(2));
      if (line.charAt(0) == '!') {
        return file;
      }
    }
    return file;
  }

  private static String text(List<String> lines) {
    return lines.stream().map(line -> line + '\n').collect(Collectors.joining());
  }

  private static String replace(String file, String old, String now) {
    assertTrue(("\n" + file).contains("\n" + old), "the base has no line " + old);
    return ("\n" + file).replace("\n" + old, "\n" + now).substring(1);
  }

  static String resource(String name) {
    try (InputStream in = FindingsTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
