package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SlimCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  @TempDir private Path temp;

  private static Run slim(String... more) {
    String[] args = new String[4 + more.length];
    System.arraycopy(new String[] {"slim", SAMPLE, "-t", "attiny13a"}, 0, args, 0, 4);
    System.arraycopy(more, 0, args, 4, more.length);
    return Run.of(args);
  }

  @Test
  void text_fitsATerminal() {
    for (String part : new String[] {"attiny13a", "attiny4313", "attiny48"}) {
      for (String sample : new String[] {"cold-store", "bilge", "compost-heap", "grain-dryer"}) {
        String file = "generated-samples/" + sample + "/" + sample + ".yaml";
        Run run = Run.of("slim", file, "-t", part);
        assertEquals("", run.err());
        assertTrue(run.out().lines().allMatch(line -> line.length() <= 80), run.out());
      }
    }
  }

  @Test
  void partWithoutAPort_cannotBeSearched() throws IOException {
    Run run = Run.of("slim", SAMPLE, "-t", "efm32zg108f16");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().endsWith("nothing can be searched.\n"), run.out());
    JsonNode answer =
        new ObjectMapper()
            .readTree(Run.of("slim", SAMPLE, "-t", "efm32zg108f16", "--format=json").out());
    assertEquals("not_measured", answer.get("outcome").asText());
    assertEquals("listed", answer.get("grade").asText());
    Path file = temp.resolve("slimmed.yaml");
    Run.of("slim", SAMPLE, "-t", "efm32zg108f16", "--write", file.toString());
    assertFalse(Files.exists(file));
  }

  @Test
  void whatFits_needsNothing() {
    Run run = Run.of("slim", SAMPLE, "-t", "attiny85");
    assertEquals(ExitCode.GOOD, run.code());
    assertTrue(run.out().endsWith("\nNothing to change: it fits as it is.\n"), run.out());
  }

  @Test
  void nothingThatHelps_endsWithOne() throws IOException {
    Path file = temp.resolve("greedy.yaml");
    Files.writeString(file, Files.readString(Path.of(SAMPLE)) + "\nbring: {ram_bytes: 600}\n");
    Run run = Run.of("slim", file.toString(), "-t", "attiny85");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().contains("Nothing helps: with every change that there is, "), run.out());
    assertTrue(run.out().contains("\nParts that hold it as it is"), run.out());
  }

  @Test
  void written_isALoopThatFits() {
    Path file = temp.resolve("slimmed.yaml");
    Run run = slim("--write", file.toString());
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals("`" + file + "` has the loop with set 1.\n", run.err());
    Loop slimmed = LoopReader.read(file);
    assertEquals(4, slimmed.average().readings());
    Run budget = Run.of("budget", file.toString(), "-t", "attiny13a");
    assertTrue(budget.out().contains("\nfits: "), budget.out());
  }

  @Test
  void anotherSet_canBeWritten() {
    Path file = temp.resolve("slimmed.yaml");
    assertEquals(ExitCode.GOOD, slim("--write", file.toString(), "--set", "2").code());
    assertEquals(0, LoopReader.read(file).outputs().sounder().orElseThrow().toneHz());
  }

  @Test
  void setThatIsNotThere_isWrongUseAndWritesNothing() {
    Path file = temp.resolve("slimmed.yaml");
    Run run = slim("--write", file.toString(), "--set", "9");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().startsWith("There is no set 9; there are sets 1 to 2."), run.err());
    assertFalse(Files.exists(file));
  }

  @Test
  void existingFile_isReplacedOnlyWhenAsked() throws IOException {
    Path file = temp.resolve("mine.yaml");
    Files.writeString(file, "# mine\n");
    Run run = slim("--write", file.toString());
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("exists; add --replace to have it replaced"), run.err());
    assertEquals("", run.out());
    assertEquals("# mine\n", Files.readString(file));
    assertEquals(ExitCode.GOOD, slim("--write", file.toString(), "--replace").code());
    assertEquals(4, LoopReader.read(file).average().readings());
  }

  @Test
  void reportAndLoop_goToDifferentFiles() {
    String file = temp.resolve("both").toString();
    Run run = slim("--write", file, "-o", file);
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("cannot be both the report and the loop file"), run.err());
  }

  @Test
  void nothingToChange_writesNothing() {
    Path file = temp.resolve("slimmed.yaml");
    Run run = Run.of("slim", SAMPLE, "-t", "attiny85", "--write", file.toString());
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals("`" + file + "` is not written: there is nothing to change.\n", run.err());
    assertFalse(Files.exists(file));
  }

  @Test
  void kept_isLeftAlone() {
    Run run = slim("--keep", "average");
    assertFalse(run.out().contains("average: "), run.out());
    assertTrue(run.out().contains("outputs.sounder: "), run.out());
    Run wrong = slim("--keep", "averge");
    assertEquals(ExitCode.WRONG_USE, wrong.code());
    assertTrue(wrong.err().contains("There is no aspect `averge`; nearest: `average`"));
  }

  @Test
  void json_hasEverySetAndTheNearParts() throws IOException {
    JsonNode root = new ObjectMapper().readTree(slim("--format=json").out());
    assertEquals("ullage/slim/1", root.get("schema").asText());
    assertEquals("tight", root.get("verdict").asText());
    assertEquals("slimmed", root.get("outcome").asText());
    assertTrue(root.get("cheapest").asBoolean());
    JsonNode best = root.get("sets").get(0);
    assertEquals(3, best.get("weight").asInt());
    assertEquals("fits", best.get("verdict").asText());
    assertEquals(8, best.get("saves").get("ram").asInt());
    assertEquals("moving 4", best.get("changes").get(0).get("to").asText());
    JsonNode near = root.get("near").get(0);
    assertEquals("attiny25", near.get("target").asText());
    assertEquals("PDIP-8", near.get("same_package").asText());
    assertTrue(near.get("ram").get("headroom").asInt() > 0);
  }

  @Test
  void csvAndMarkdown_haveARowForEachChange() {
    String csv = slim("--format=csv").out();
    assertEquals(1 + 2, csv.lines().count(), csv);
    assertTrue(csv.contains("\r\n1,average,average,moving 8,moving 4,3,0,8,0,\"the "), csv);
    String page = slim("--format=md").out();
    assertTrue(page.contains("\n## Set 1, weight 3\n"), page);
    assertTrue(page.contains("| average: moving 8 -\\> moving 4 | 0 | 8 | 0 |"), page);
    assertTrue(page.contains("\n## Parts that hold it as it is\n"), page);
  }
}
