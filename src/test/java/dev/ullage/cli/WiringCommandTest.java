package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WiringCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";
  private static final int COLUMNS = 80;

  @ParameterizedTest
  @ValueSource(strings = {"attiny85", "atmega328p", "stm32f030f4", "ch32v003f4p6", "gd32vf103cbt6"})
  void report_saysWhatAPersonNeeds(String part) {
    Run run = Run.of("wiring", SAMPLE, "-t", part);
    assertTrue(run.isGood(), run.err());
    for (String section :
        List.of(
            "leads to", "two-wire bus", "divider", "in alarm", "microcontroller", "Not a safety")) {
      assertTrue(run.out().contains(section), section + " in\n" + run.out());
    }
    run.out().lines().forEach(line -> assertTrue(line.length() <= COLUMNS, line));
  }

  /** Every part with a port has a wiring, or a reason for none. */
  @Test
  void everyPart_isWiredOrSaysWhyNot() {
    List<String> wrong = new ArrayList<>();
    for (Target target : Catalogue.load().targets()) {
      Run run = Run.of("wiring", SAMPLE, "-t", target.name(), "--format=json");
      boolean lacking = run.code() == ExitCode.FINDINGS && run.err().startsWith("lacks: ");
      if (!run.isGood() && !lacking && run.code() != ExitCode.FINDINGS) {
        wrong.add(target.name() + ": " + run.code() + " " + run.err());
      }
    }
    assertEquals(List.of(), wrong);
  }

  @Test
  void json_agreesWithTheEmittedPins(@TempDir Path folder) throws IOException {
    JsonNode wiring =
        new ObjectMapper()
            .readTree(Run.of("wiring", SAMPLE, "-t", "attiny85", "--format=json").out());
    JsonNode budget =
        new ObjectMapper()
            .readTree(Run.of("budget", SAMPLE, "-t", "attiny85", "--format=json").out());
    assertEquals("ullage/wiring/1", wiring.get("schema").asText());
    int seen = 0;
    for (JsonNode pin : wiring.get("pins")) {
      if (pin.has("role")) {
        String role = pin.get("role").asText();
        assertEquals(budget.get("pins").get(role).asText(), pin.get("name").asText(), role);
        seen++;
      }
    }
    assertEquals(budget.get("pins").size(), seen);
  }

  @Test
  void csv_isThePartsList() {
    Run run = Run.of("wiring", SAMPLE, "-t", "attiny85", "--format=csv");
    assertTrue(
        run.out().startsWith("count,part,value,why\r\n1,microcontroller,ATtiny85"), run.out());
  }

  @Test
  void drawing_goesToAFile(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("pins.svg");
    Run run = Run.of("wiring", SAMPLE, "-t", "attiny85", "--format=svg", "-o", file.toString());
    assertTrue(run.isGood(), run.err());
    assertTrue(Files.readString(file).contains("<svg"), "a drawing");
  }

  /** The pinouts are those of the data sheets: LQFP-32 leads PB3 out, QFN-32 does not. */
  @Test
  void packageThatLacksAPin_isAFault(@TempDir Path folder) throws IOException {
    Path loop = folder.resolve("loop.yaml");
    Files.writeString(
        loop,
        """
        loop: bilge watch
        sensor: {address: 0x4D}
        alarm: {threshold: 1}
        outputs: {lamp: {}}
        board: {supply_v: 3, pins: {lamp: PB3}}
        """);
    assertTrue(Run.of("wiring", loop.toString(), "-t", "stm32l072kb").isGood());
    Run run = Run.of("wiring", loop.toString(), "-t", "stm32l072kb", "--package", "qfn-32");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().contains("fault: QFN-32 does not lead out PB3, the pin of lamp"));
    assertTrue(run.out().contains("STM32L072KB in QFN-32"), "the list of parts has that package");
  }

  @Test
  void cautions_areThoseThatTheLoopGivesAReasonFor(@TempDir Path folder) throws IOException {
    Path loop = folder.resolve("loop.yaml");
    String start = "loop: bilge watch\nsensor: {address: 0x4D}\nalarm: {threshold: 1}\n";
    Files.writeString(loop, start + "board: {supply_v: 3}\n");
    String plain = Run.of("wiring", loop.toString(), "-t", "attiny85").out();
    Files.writeString(
        loop,
        start
            + "outputs: {relay: {}, sounder: {tone_hz: 2700}}\n"
            + "board: {supply_v: 3, supply: coin_cell}\n");
    String rich = Run.of("wiring", loop.toString(), "-t", "attiny85").out();
    assertTrue(plain.contains("mains voltage") && rich.contains("mains voltage"));
    for (String caution : List.of("relay's contacts", "85 dB(A)", "away from children")) {
      assertTrue(rich.contains(caution) && !plain.contains(caution), caution);
    }
  }

  @Test
  void fault_endsWithCodeOne(@TempDir Path folder) throws IOException {
    Path loop = folder.resolve("loop.yaml");
    Files.writeString(
        loop,
        """
        loop: bilge watch
        sensor: {address: 0x4D}
        alarm: {threshold: 1}
        board: {supply_v: 5, pull_up_ohm: 100}
        """);
    Run run = Run.of("wiring", loop.toString(), "-t", "attiny85");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().contains("fault: pull-ups of 100 ohm"), run.out());
  }

  @Test
  void whatCannotBePlanned_saysWhatIsLacking(@TempDir Path folder) throws IOException {
    Path loop = folder.resolve("loop.yaml");
    Files.writeString(
        loop,
        """
        loop: bilge watch
        sensor: {address: 0x4D}
        alarm: {threshold: 1}
        board: {pins: {sda: PB9}}
        """);
    Run run = Run.of("wiring", loop.toString(), "-t", "attiny85");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertEquals("lacks: the part has no pin PB9.\n", run.err());
  }

  @Test
  void unknownPackage_namesThoseThereAre() {
    Run run = Run.of("wiring", SAMPLE, "-t", "attiny85", "--package", "SOIC-14");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("There is no package `SOIC-14`; nearest:"), run.err());
  }
}
