package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.replay.TraceOptions.Missing;
import dev.ullage.replay.TraceOptions.Values;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TraceTest {
  private static final Loop LOOP = Traces.loop("alarm: {when: above, threshold: 30}");

  private static final Loop PAIR =
      LoopReader.read(
          "pair.yaml",
          """
          loop: pair
          sensor:
            bus: i2c
            address: 0x44
            frame:
              samples: 2
              sample_bytes: 2
              signed: false
              check: {crc8: {poly: 0x31, init: 0xFF, over: sample}}
            scale: {gain: 0.5, offset: -10, unit: degC}
          alarm: {when: above, threshold: 30}
          """);

  private static Trace read(Loop loop, String text, TraceOptions options) {
    return Trace.read("trace.csv", text, loop, options);
  }

  private static Trace read(String text) {
    return read(LOOP, text, TraceOptions.NONE);
  }

  private static TraceOptions missing(Missing how) {
    return new TraceOptions(List.of(), Optional.empty(), Optional.empty(), how);
  }

  private static void refused(Loop loop, String text, TraceOptions options, String... findings) {
    InputException wrong = assertThrows(InputException.class, () -> read(loop, text, options));
    assertEquals(String.join("\n", findings), wrong.getMessage());
  }

  private static void refused(String text, String... findings) {
    refused(LOOP, text, TraceOptions.NONE, findings);
  }

  @Test
  void valuesInTheUnit_becomeTheNearestCounts() {
    Trace trace = read("# made up\ntemperature_degC\n20.04\n\n20.05\n-3.25\n-\n");
    assertEquals(4, trace.readings().size());
    assertArrayEquals(new long[] {200}, trace.readings().get(0).raw());
    assertArrayEquals(new long[] {201}, trace.readings().get(1).raw());
    assertArrayEquals(new long[] {-32}, trace.readings().get(2).raw());
    assertTrue(trace.readings().get(3).failed());
    assertEquals(3_000, trace.readings().get(3).timeMs());
    assertEquals(7, trace.readings().get(3).line());
  }

  @Test
  void countsAndBytes_areKnownByTheirNames() {
    assertArrayEquals(new long[] {-5}, read("raw\n-5").readings().get(0).raw());
    assertArrayEquals(new long[] {-2}, read("byte1;byte2\n0xFF;254").readings().get(0).raw());
    assertArrayEquals(new long[] {-2}, read("bytes\nFF FE").readings().get(0).raw());
    assertArrayEquals(new long[] {-2}, read("0xFF,0xFE").readings().get(0).raw());
    TraceOptions raw =
        new TraceOptions(List.of("2"), Optional.empty(), Optional.of(Values.RAW), Missing.REFUSE);
    assertArrayEquals(new long[] {77}, read(LOOP, "a,b\n1,77", raw).readings().get(0).raw());
  }

  /** The check byte of 0xBE 0xEF is 0x92: Sensirion data sheet SHT3x, section 4.12. */
  @Test
  void checkBytes_areChecked() {
    TraceOptions bytes =
        new TraceOptions(List.of(), Optional.empty(), Optional.of(Values.BYTES), Missing.REFUSE);
    Trace trace =
        read(PAIR, "frame\nBE EF 92 BE EF 92\nBE EF 92 BE EF 93\nBE EE 92 BE EF 92", bytes);
    assertArrayEquals(new long[] {0xBEEF, 0xBEEF}, trace.readings().get(0).raw());
    assertTrue(trace.readings().get(1).failed());
    assertTrue(trace.readings().get(2).failed());
  }

  @Test
  void oneValue_isThatOfAllSamples() {
    assertArrayEquals(
        new long[] {30, 30}, read(PAIR, "5", TraceOptions.NONE).readings().get(0).raw());
  }

  @Test
  void beyondTheSensor_isTakenAsItsEndAndNoted() {
    Trace trace = read(PAIR, "-10,-10.3\n40000,0\n", TraceOptions.NONE);
    assertArrayEquals(new long[] {65535, 20}, trace.readings().get(1).raw());
    assertEquals(
        List.of(
            "2 values are beyond what the sensor can send, the first in line 1; taken as the end"
                + " of its range"),
        trace.notes());
  }

  @ParameterizedTest
  @CsvSource({
    "time_s, '5,6,7.5', '0,1000,2500'",
    "time_ms, '5,1005,2006', '0,1000,2001'",
    "time_min, '0,1,2', '0,60000,120000'"
  })
  void times_countFromTheFirst(String name, String times, String expected) {
    StringBuilder text = new StringBuilder(name + ",degC\n");
    for (String time : times.split(",")) {
      text.append(time).append(",20\n");
    }
    List<String> found =
        read(text.toString()).readings().stream().map(r -> "" + r.timeMs()).toList();
    assertEquals(expected, String.join(",", found));
  }

  @Test
  void otherPeriod_isNoted() {
    TraceOptions date =
        new TraceOptions(List.of("b"), Optional.of("a"), Optional.empty(), Missing.REFUSE);
    Trace trace = read(LOOP, "a,b\n2026-02-27,1\n2026-02-28,2\n2026-03-01,3\n", date);
    assertEquals(86_400_000, trace.periodMs());
    assertEquals(172_800_000, trace.readings().get(2).timeMs());
    assertTrue(
        trace.notes().get(0).startsWith("the trace has a reading each 1 d, the loop one each 1 s"));
  }

  @Test
  void wrongCells_areNamedWithLineAndColumn() {
    refused(
        "degC\n20\n\nwarm\n21,22\n \n20,5x\n",
        "trace.csv:4:1: `degC` must be a number, but was warm",
        "trace.csv:5: the line must be 1 column, as the first line has, but was 2 columns",
        "trace.csv:7: the line must be 1 column, as the first line has, but was 2 columns");
    refused(
        "a;b\n20,5;1\n",
        "trace.csv:1: the line must be one column of values, but was 2 columns; choose the"
            + " columns with --column, and that of the time with --time");
    TraceOptions second =
        new TraceOptions(List.of("b"), Optional.empty(), Optional.empty(), Missing.REFUSE);
    refused(
        LOOP,
        "a;b\n1; 20,5\n",
        second,
        "trace.csv:2:4: `b` must be a number, but was 20,5; write a point for the decimal comma");
    TraceOptions none =
        new TraceOptions(List.of("temprature"), Optional.empty(), Optional.empty(), Missing.REFUSE);
    refused(
        LOOP,
        "temperature,b\n1,2\n",
        none,
        "trace.csv:1: `temprature` must be the name of a column, but was not there; did you mean"
            + " `temperature`?");
  }

  @Test
  void wrongCounts_areNamed() {
    refused(
        "raw\n32768\n1.5\n",
        "trace.csv:2:1: `raw` must be a count from -32768 to 32767, but was 32768",
        "trace.csv:3:1: `raw` must be a count from -32768 to 32767, but was 1.5");
    refused(
        "byte_1,byte_2\n0x1,256\n",
        "trace.csv:2:5: `byte_2` must be a byte, such as 0x3F or 63, but was 256");
    refused(
        "bytes\n1 2 3\n",
        "trace.csv:2:1: `bytes` must be 2 bytes, as the frame has, but was 1 2 3");
  }

  @Test
  void missingValues_followThePolicy() {
    refused(
        PAIR,
        "left,right\n1,2\n3,\n",
        TraceOptions.NONE,
        "trace.csv:3:3: `right` must be a number, but was missing; `--missing fault` takes it as a"
            + " failed reading, `--missing skip` leaves it out");
    Trace fault = read(PAIR, "left,right\n1,2\nNaN,4\n5,6\n", missing(Missing.FAULT));
    assertTrue(fault.readings().get(1).failed());
    assertEquals(2_000, fault.readings().get(2).timeMs());
    Trace skip = read(PAIR, "left,right\n1,2\n3,\n5,6\n", missing(Missing.SKIP));
    assertEquals(2, skip.readings().size());
    assertEquals(1_000, skip.readings().get(1).timeMs());
  }

  @Test
  void gapsInTime_followThePolicy() {
    String text = "time_s,degC\n0,20\n1,20\n5,20\n6,20\n";
    refused(
        text,
        "trace.csv:4: `time_s` must be about 1000 ms after the line before, as most are, but was"
            + " 4000 ms after it; `--missing fault` takes what should be between as failed"
            + " readings, `--missing skip` does without them");
    Trace fault = read(LOOP, text, missing(Missing.FAULT));
    assertEquals(7, fault.readings().size());
    assertTrue(fault.readings().get(3).failed());
    assertEquals(3_000, fault.readings().get(3).timeMs());
    assertEquals(4, read(LOOP, text, missing(Missing.SKIP)).readings().size());
    refused(
        "time_s,degC\n0,20\n1,20\n2,20\n1,20\n",
        "trace.csv:5: `time_s` must be later than the line before, but was earlier");
  }

  @Test
  void nothing_isNoTrace() {
    refused(
        "# nothing\n",
        "trace.csv: the file must be a trace with at least one reading, but was without any");
    InputException wrong =
        assertThrows(
            InputException.class,
            () -> Trace.read(Path.of("not-there.csv"), LOOP, TraceOptions.NONE));
    assertEquals("not-there.csv: the file must be readable, but was not there", wrong.getMessage());
  }

  /** Whatever is done to a good trace, it is read or refused. */
  @Test
  void damagedTraces_areReadOrRefused() {
    Random random = new Random(7);
    String good = "time_s,left,right\n0,1.5,2\n1,2.5,7\n2,-,-\n3,\"4\",1e1\n";
    String spice = "\",;-\n\t\u0000\u00ff#xE9.+ \r";
    int read = 0;
    for (int i = 0; i < 10_000; i++) {
      StringBuilder text = new StringBuilder(good);
      for (int change = random.nextInt(4); change >= 0; change--) {
        int at = random.nextInt(text.length());
        text.setCharAt(at, spice.charAt(random.nextInt(spice.length())));
      }
      try {
        Traces.replay(PAIR, text.toString()).summary();
        read++;
      } catch (InputException refused) {
        assertTrue(refused.getMessage().startsWith("trace.csv"));
      }
    }
    assertTrue(read > 100, () -> "far too many were refused");
  }

  /** Each cell has its place told without going through the line again: this once took minutes. */
  @Test
  void lineOfCellsWithoutEnd_isRefusedInTime() {
    String line = "1,".repeat(100_000);
    assertTimeoutPreemptively(
        Duration.ofSeconds(60),
        () -> {
          assertThrows(InputException.class, () -> read(line));
          assertThrows(InputException.class, () -> read(line + "\"\n"));
        });
  }
}
