package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class LoopReaderTest {

  private static final String SHORTEST =
      """
      loop: guard
      sensor: {address: 0x48}
      alarm: {threshold: 20}
      """;

  @Test
  void shortestFile_takesEveryDefault() {
    Loop loop = LoopReader.read("loop.yaml", SHORTEST);
    assertEquals(1_000, loop.periodMs());
    assertEquals(
        new Frame(0, 1, 1, 2, Frame.ByteOrder.BIG, true, 0, 0, Optional.empty()),
        loop.sensor().frame());
    assertEquals(new Scale(BigDecimal.ONE, BigDecimal.ZERO, "counts"), loop.sensor().scale());
    assertEquals(
        new Average(Average.OfFrame.MEAN, Average.OverTime.NONE, 1, Optional.empty()),
        loop.average());
    assertEquals(Optional.of(new Outputs.Lamp(0, Outputs.Active.HIGH)), loop.outputs().lamp());
    assertEquals(Optional.empty(), loop.outputs().sounder());
    assertEquals(new BufferSizes(32, 32), loop.buffer());
    assertEquals(new Margin(5, 16), loop.margin());
  }

  @Test
  void averageOverTime_bringsItsUsualReadings() {
    assertEquals(8, readings("moving"));
    assertEquals(8, readings("exponential"));
    assertEquals(5, readings("median"));
    assertEquals(1, readings("none"));
  }

  private static int readings(String overTime) {
    String file = SHORTEST + "average: {over_time: " + overTime + "}\n";
    return LoopReader.read("loop.yaml", file).average().readings();
  }

  @Test
  void numbers_areExactWhateverTheirForm() {
    Loop loop = LoopReader.read("loop.yaml", SHORTEST.replace("20", "+2.050e1"));
    assertEquals(
        new Alarm.Limit.Above(new Alarm.Setting.Fixed(new BigDecimal("20.5"))),
        loop.alarm().limit());
  }

  @Test
  void byteOrderMark_isDropped() {
    assertEquals("guard", LoopReader.read("loop.yaml", "\ufeff" + SHORTEST).name());
  }

  @Test
  void aliases_standForWhatTheyName() {
    String file =
        SHORTEST.replace("20", "&limit 20") + "average: {frame: share_above, level: *limit}\n";
    assertEquals(
        Optional.of(BigDecimal.valueOf(20)), LoopReader.read("loop.yaml", file).average().level());
  }

  @Test
  void manyMistakes_areFoundInOneRunInTheOrderOfTheFile() {
    String file =
        """
        loop: ""
        sensr_: 1
        period_ms: 10 ms
        sensor:
          address: 0x90
          ask: [0x100]
          frame: {samples: 16, columns: 5, check: {crc8: {poly: 0x31}}}
        average: {frame: median, over_time: median, readings: 8, level: 3}
        alarm: {when: outside, low: 10, high: 8, latch: true}
        outputs: {}
        margin: {flash_percent: 91}
        """;
    assertEquals(
        List.of(
            "1 loop",
            "2 sensr_",
            "3 period_ms",
            "5 sensor.address",
            "6 sensor.ask[0]",
            "7 sensor.frame.columns",
            "7 sensor.frame.check.crc8.init",
            "8 average.frame",
            "8 average.readings",
            "9 alarm.low",
            "9 alarm.latch",
            "10 outputs",
            "11 margin.flash_percent"),
        findings(file).stream().map(f -> f.line() + " " + f.key()).toList());
  }

  @Test
  void missingFile_andFolder_areFindings(@TempDir Path folder) {
    Path missing = folder.resolve("none.yaml");
    InputException thrown = assertThrows(InputException.class, () -> LoopReader.read(missing));
    assertEquals(missing + ": the file must be readable, but was not there", thrown.getMessage());
    assertThrows(InputException.class, () -> LoopReader.read(folder));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void samples_areRead(Path sample) {
    Loop loop = LoopReader.read(sample);
    assertEquals(loop, LoopReader.read("printed.yaml", LoopPrinter.print(loop)));
  }

  static List<Path> samples() throws IOException {
    try (Stream<Path> folders = Files.list(Path.of("generated-samples"))) {
      List<Path> samples =
          folders
              .map(folder -> folder.resolve(folder.getFileName() + ".yaml"))
              .filter(Files::exists)
              .sorted()
              .toList();
      assertTrue(samples.size() >= 5, "too few samples: " + samples);
      return samples;
    }
  }

  private static List<Finding> findings(String file) {
    InputException thrown =
        assertThrows(InputException.class, () -> LoopReader.read("loop.yaml", file));
    assertEquals(
        thrown.getMessage(),
        thrown.findings().stream().map(Finding::text).collect(Collectors.joining("\n")));
    return thrown.findings();
  }
}
