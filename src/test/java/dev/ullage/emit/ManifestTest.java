package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.emit.EmittedFile.Policy;
import dev.ullage.input.InputException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ManifestTest {
  static final Origin ORIGIN =
      new Origin(
          "bee hive ü",
          "attiny85",
          new Origin.Versions("0.1.0", "1"),
          new Origin.Figures(690, 702, 716, 12, 38));

  /** The example of SHA-256 in FIPS 180-4, "abc"; the digest is from memory. */
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  private static final String TEXT =
      """
      {
        "schema" : "ullage/emitted/1",
        "loop" : {
          "name" : "bee hive ü"
        },
        "target" : "attiny85",
        "versions" : {
          "ullage" : "0.1.0",
          "templates" : "1"
        },
        "files" : {
          "src/main.c" : "%s"
        },
        "estimate" : {
          "flash" : {
            "low" : 690,
            "likely" : 702,
            "high" : 716
          },
          "ram_static" : 12,
          "stack" : 38
        }
      }
      """
          .formatted(ABC);

  @Test
  void toJson_listsWhatWeMayReplace() {
    Emission emission =
        new Emission(
            List.of(
                new EmittedFile("src/main.c", "abc", Policy.REPLACE),
                new EmittedFile("yours/hooks.c", "abc", Policy.ONCE)),
            ORIGIN);
    assertEquals(TEXT, emission.manifest().toJson());
  }

  @Test
  void read_isWhatWasWritten() {
    assertEquals(new Manifest(ORIGIN, new TreeMap<>(Map.of("src/main.c", ABC))), read(TEXT));
  }

  @ParameterizedTest
  @CsvSource({
    "emitted/1, emitted/2, schema",
    "\"name\", \"nome\", loop.nome",
    "src/main.c, ../main.c, ../main.c",
    "src/main.c, /etc/passwd, /etc/passwd",
    "src/main.c, src/.git, src/.git",
    "src/main.c, src\\\\main.c, src\\main.c",
    "src/main.c, ullage.json, files",
    "ba7816, BA7816, files.src/main.c",
    "690, -690, estimate.flash.low",
    "690, 6.90, whole numbers",
    "690, 99999999999999999999, JSON",
    "690, \"690\", estimate.flash.low",
    "\"stack\", \"ram_static\", Duplicate",
    "\"target\" : \"attiny85\", \"target\" : null, whole numbers",
    "\"target\" :, \"target\", JSON",
  })
  void read_whatIsWrongIsNamed(String text, String wrong, String expected) {
    String json = TEXT.replace(text, wrong);
    String message = assertThrows(InputException.class, () -> read(json)).getMessage();
    assertTrue(message.startsWith("ullage.json") && message.contains(expected), message);
  }

  @Test
  void read_deepNestingIsRefused() {
    assertThrows(InputException.class, () -> read("{\"a\":".repeat(100_000)));
  }

  @Property
  void anyTextInAnOriginComesBack(
      @ForAll @StringLength(max = 40) String loop, @ForAll @IntRange(min = 0) int bytes) {
    String whole = new String(loop.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8);
    Origin origin =
        new Origin(
            whole,
            "atmega8",
            new Origin.Versions("0.1.0", "1"),
            new Origin.Figures(1, 2, 3, bytes, 5));
    Manifest manifest = new Manifest(origin, new TreeMap<>());
    assertEquals(manifest, read(manifest.toJson()));
  }

  @Property
  void anyBytesGiveAManifestOrFindings(@ForAll byte[] bytes) {
    assertThrows(InputException.class, () -> ManifestReader.read("ullage.json", bytes));
  }

  @Property
  void anyDamageGivesAManifestOrFindings(
      @ForAll @IntRange(max = 500) int at, @ForAll byte damage, @ForAll boolean cut) {
    byte[] bytes = TEXT.getBytes(StandardCharsets.UTF_8);
    bytes[at % bytes.length] = damage;
    byte[] damaged = cut ? Arrays.copyOf(bytes, at % bytes.length) : bytes;
    try {
      assertEquals(1, ManifestReader.read("ullage.json", damaged).hashes().size());
    } catch (InputException e) {
      assertTrue(e.getMessage().startsWith("ullage.json"));
    }
  }

  private static Manifest read(String json) {
    return ManifestReader.read("ullage.json", json.getBytes(StandardCharsets.UTF_8));
  }
}
