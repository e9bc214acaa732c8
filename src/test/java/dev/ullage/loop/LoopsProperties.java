package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class LoopsProperties {

  @Provide
  Arbitrary<Loop> loops() {
    return Loops.valid();
  }

  @Property(tries = 500)
  void whatIsPrintedReadsBackAsTheSameLoop(@ForAll("loops") Loop loop) {
    String printed = LoopPrinter.print(loop);
    Loop read = LoopReader.read("printed.yaml", printed);
    assertEquals(loop, read);
    assertEquals(printed, LoopPrinter.print(read));
  }

  @Example
  void theSameSeedGivesTheSameLoops() {
    assertEquals(Loops.random(7, 50), Loops.random(7, 50));
    assertTrue(Set.copyOf(Loops.random(7, 50)).size() > 45);
  }

  @Example
  void everyWordOfEveryChoiceAndEveryOptionalKeyComesUp() {
    List<Loop> loops = Loops.random(1, 1_000);
    Set<String> seen = new TreeSet<>();
    for (Loop loop : loops) {
      LoopValues.of(loop).forEach((key, value) -> seen.add(key + "=" + value));
    }
    Set<String> missing = expected(Keys.FILE, "").collect(Collectors.toCollection(TreeSet::new));
    missing.removeAll(seen);
    seen.forEach(value -> missing.remove(value.substring(0, value.indexOf('=') + 1)));
    missing.removeIf(key -> key.startsWith("board.pins."));
    assertEquals(Set.of(), missing);
  }

  /** {@code key=word} for every word that may stand there, {@code key=} for other keys. */
  private static Stream<String> expected(Shape.Group group, String prefix) {
    return group.keys().stream()
        .flatMap(
            key -> {
              String path = prefix + key.name();
              if (key.shape() instanceof Shape.Group inner) {
                return expected(inner, path + '.');
              }
              if (key.shape() instanceof Shape.Choice choice) {
                return choice.words().stream().map(word -> path + '=' + word);
              }
              return key.shape() instanceof Shape.Flag
                  ? Stream.of(path + "=true", path + "=false")
                  : Stream.of(path + '=');
            });
  }
}
