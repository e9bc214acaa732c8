package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Mean and standard deviation of a replay against the certified values of the NIST Statistical
 * Reference Datasets (univariate summary statistics), as shipped with the tests of Apache Commons
 * Math 3.6.1. Data and certified values both come from its files.
 */
class CertifiedStatisticsTest {
  private static final Pattern MEAN =
      Pattern.compile("(?:ybar:|mean +=)\\s*(-?[0-9.]+)", Pattern.CASE_INSENSITIVE);
  private static final Pattern DEVIATION =
      Pattern.compile("(?: s:|standardDeviation +=)\\s*([0-9.]+)");

  @ParameterizedTest
  @CsvSource({
    "Michelso, 2, 0.01, 0, 100",
    "Mavro, 2, 0.0001, 0, 50",
    "Lew, 2, 1, 0, 200",
    "Lottery, 2, 1, 0, 218",
    "PiDigits, 1, 1, 0, 5000",
    "NumAcc1, 3, 1, 0, 3",
    "NumAcc2, 2, 0.1, 0, 1001",
    "NumAcc3, 3, 0.1, 0, 1001",
    "NumAcc4, 4, 0.1, 0, 1001",
  })
  void meanAndDeviation_areAsCertified(
      String name, int bytes, String gain, String offset, int count) throws IOException {
    String file = file(name);
    String data =
        String.join(
            "\n", file.lines().filter(l -> l.matches("\\s*-?[0-9]+([.][0-9]+)?\\s*")).toList());
    Replay replay = Traces.replay(loop(bytes, gain, offset), data);
    Spread spread = replay.summary().average().orElseThrow();
    assertEquals(count, spread.count());
    assertEquals(List.of(), replay.trace().notes());
    double mean = value(MEAN, file);
    double deviation = value(DEVIATION, file);
    assertEquals(mean, spread.mean(), 1e-10 * Math.abs(mean));
    // Doubles hold the data of the last two to 1e-16 of a million; that is left of their spread.
    assertEquals(deviation, spread.sd(), 1e-8 * deviation);
  }

  private static Loop loop(int bytes, String gain, String offset) {
    String unsignedOrSigned = bytes == 2 && gain.equals("1") ? "true" : "false";
    return LoopReader.read(
        "loop.yaml",
        """
        loop: certified
        sensor:
          bus: i2c
          address: 0x4D
          frame: {sample_bytes: %d, bits: %d, signed: %s}
          scale: {gain: %s, offset: %s, unit: counts}
        alarm: {when: above, threshold: 2}
        """
            .formatted(bytes, Math.min(27, 8 * bytes), unsignedOrSigned, gain, offset));
  }

  private static double value(Pattern pattern, String file) {
    Matcher matcher = pattern.matcher(file);
    assertTrue(matcher.find(), pattern.pattern());
    return Double.parseDouble(matcher.group(1));
  }

  private static String file(String name) throws IOException {
    String path = "/org/apache/commons/math3/stat/data/" + name + ".txt";
    try (InputStream in = CertifiedStatisticsTest.class.getResourceAsStream(path)) {
      return new String(in.readAllBytes(), StandardCharsets.US_ASCII);
    }
  }
}
