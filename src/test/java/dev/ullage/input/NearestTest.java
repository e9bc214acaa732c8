package dev.ullage.input;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.StringLength;

class NearestTest {
  private static final List<String> KEYS = List.of("address", "ask", "frame", "low", "high");

  @Example
  void slips_findTheWordThatWasMeant() {
    assertEquals(Optional.of("address"), Nearest.to("adress", KEYS));
    assertEquals(Optional.of("address"), Nearest.to("addresses", KEYS));
    assertEquals(Optional.of("frame"), Nearest.to("farme", KEYS));
    assertEquals(Optional.of("high"), Nearest.to("hihg", KEYS));
  }

  @Example
  void otherWords_findNothing() {
    assertEquals(Optional.empty(), Nearest.to("colour", KEYS));
    assertEquals(Optional.empty(), Nearest.to("", KEYS));
    assertEquals(Optional.empty(), Nearest.to("x".repeat(60_000), KEYS));
  }

  @Property(tries = 200)
  void changesAreCountedTheSameBothWays(
      @ForAll @AlphaChars @StringLength(min = 4, max = 8) String a,
      @ForAll @AlphaChars @StringLength(min = 4, max = 8) String b) {
    assertEquals(Nearest.changes(a, b), Nearest.changes(b, a));
    assertEquals(a.equals(b), Nearest.changes(a, b) == 0);
  }
}
