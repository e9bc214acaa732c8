package dev.ullage.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FindingTest {

  private static final Finding ADDRESS =
      new Finding(
          "cold-store.yaml",
          7,
          12,
          "sensor.address",
          "0x90",
          "a 7-bit address from 0x08 to 0x77",
          Optional.of("it looks like the 8-bit form of 0x48"));

  @Test
  void findingWithCure_readsAsOneSentence() {
    assertEquals(
        "cold-store.yaml:7:12: `sensor.address` must be a 7-bit address from 0x08 to 0x77,"
            + " but was 0x90; it looks like the 8-bit form of 0x48",
        ADDRESS.text());
  }

  @Test
  void findingOfWholeFile_namesNoKeyAndNoLine() {
    Finding empty =
        new Finding("a.yaml", 0, 0, "", "empty", "a mapping of keys to values", Optional.empty());
    assertEquals(
        "a.yaml: the file must be a mapping of keys to values, but was empty", empty.text());
  }

  @Test
  void controlCharacters_areShownNotSent() {
    Finding hostile =
        new Finding("a.yaml", 1, 0, "loop", "\u001b[2J\n\u202e", "a name", Optional.empty());
    assertEquals(
        "a.yaml:1: `loop` must be a name, but was \\u001b[2J\\u000a\\u202e", hostile.text());
  }

  @Test
  void exceptionMessage_holdsEveryFindingOnItsOwnLine() {
    InputException thrown = new InputException(List.of(ADDRESS, ADDRESS));
    assertEquals(ADDRESS.text() + "\n" + ADDRESS.text(), thrown.getMessage());
    assertThrows(IllegalArgumentException.class, () -> new InputException(List.of()));
  }
}
