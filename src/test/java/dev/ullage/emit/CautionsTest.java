package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.loop.LoopReader;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CautionsTest {
  private static final List<String> WORDS =
      List.of("safety", "smoke", "medical", "single", "mains", "USB", "buzzers", "maximum", "coin");

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "mm   | 3.6 | lamp    | safety, smoke, medical, single, mains, maximum",
        "mm   | 3.6 | relay   | safety, smoke, medical, single, mains",
        "mm   | 5.0 | sounder | safety, smoke, medical, single, mains, USB, buzzers, maximum",
        "degC | 3.6 | relay   | safety, smoke, medical, single, mains",
        "ppm  | 3.0 | relay   | safety, smoke, medical, single, mains, coin",
      })
  void onlyWhatApplies_isSaid(String unit, BigDecimal supplyV, String output, String expected) {
    String yaml =
        """
        loop: a
        sensor:
          bus: i2c
          address: 0x4D
          frame: {sample_bytes: 2, signed: false}
          scale: {gain: 0.1, offset: 0, unit: %s}
        alarm: {when: above, threshold: 50}
        outputs: {%s: {}}
        """
            .formatted(unit, output);
    List<String> cautions = Cautions.of(LoopReader.read("loop.yaml", yaml), supplyV);
    List<String> said =
        WORDS.stream().filter(w -> cautions.stream().anyMatch(c -> c.contains(w))).toList();
    assertEquals(expected, String.join(", ", said));
    assertEquals(said.size(), cautions.size());
  }
}
