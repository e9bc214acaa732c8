package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.cli.Run;
import dev.ullage.input.InputException;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CostCheckTest {
  private static final String SOUND =
      CostTable.title() + "# compiler: none\na[x=1]\tC a 5+2*ask 6 b@1~1\t+need\nb[]\t=a[x=1]\n";

  private static final int LITTLE_STACK = 256 << 10;

  @Test
  void tablesOfTheTool_areSound() throws IOException {
    try (Stream<Path> tables = Files.list(Path.of("targets/costs"))) {
      List<Path> all = tables.toList();
      assertTrue(all.size() > 50, all.size() + " tables");
      for (Path table : all) {
        String text = Files.readString(table, StandardCharsets.ISO_8859_1);
        assertEquals(text, CostCheck.checked(table.getFileName().toString(), text));
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "C a 5, C a many, :3: the line",
    "C a 5, C a 99999999999, :3: the line",
    "a[x=1]\\tC, a[x=1] C, :3: the line",
    "a[x=1]\\tC, a[x]\\tC, :3: the line",
    "b[]\\t=a[x=1], b[]\\t=c[], :4: the line must be or point to",
    "b[], a[x=1], :4: the line must be sorted by keys",
    "'b[]\\t=a[x=1]\\n', b[], must be whole to its last line",
    "format 1, format 2, a cost table of format 1",
    "'none\\n', 'none\\r\\n', of lines that end in a line feed",
  })
  void whatIsWrong_isNamedWithItsLine(String part, String other, String said) {
    String text = SOUND.replace(unescaped(part), unescaped(other));
    String message =
        assertThrows(InputException.class, () -> CostCheck.checked("avr25.tsv", text)).getMessage();
    assertTrue(message.startsWith("avr25.tsv") && message.contains(said), message);
  }

  /** Found by fuzzing: the stack that it takes to read a line must not grow with the line. */
  @ParameterizedTest
  @CsvSource({"5+2*ask, +2*ask", "b@1, ' b@1'", "b@1~1, ',2'", "b@1~1, ' b@1~1'"})
  void longLine_isReadWithLittleStack(String start, String more) throws InterruptedException {
    String text =
        SOUND.replace(unescaped(start), unescaped(start) + more.repeat(15_000 / more.length()));
    List<String> read = new ArrayList<>();
    Runnable check = () -> read.add(CostCheck.checked("avr25.tsv", text));
    Thread thread = new Thread(null, check, "little stack", LITTLE_STACK);
    thread.start();
    thread.join();
    assertTrue(read.contains(text)); // too long to be printed
  }

  private static String unescaped(String text) {
    return text.replace("\\t", "\t").replace("\\n", "\n").replace("\\r", "\r");
  }

  @Test
  void calibrationThatKeepsRows_refusesABrokenTableAndLeavesIt(@TempDir Path folder)
      throws IOException {
    Toolchain.avr();
    Path table = folder.resolve("avr25.tsv");
    Files.writeString(table, SOUND.replace("C a", "Q a"));
    Run run =
        Run.of(
            "calibrate",
            "-o",
            folder.toString(),
            "--missing",
            "--family",
            "avr-tinyx5",
            "--draws=1");
    assertTrue(
        run.err().contains("avr25.tsv:3: the line must be a row of a cost table"), run.err());
    assertEquals(SOUND.replace("C a", "Q a"), Files.readString(table));
  }
}
