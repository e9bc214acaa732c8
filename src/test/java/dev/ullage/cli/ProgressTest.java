package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ProgressTest {

  private static String shown(boolean watched, int all) {
    StringWriter err = new StringWriter();
    PrintWriter out = new PrintWriter(new StringWriter());
    Surroundings around =
        new Surroundings(
            InputStream.nullInputStream(), out, new PrintWriter(err), Map.of(), false, watched);
    Progress progress = new Progress(around, "modules compiled");
    IntStream.rangeClosed(0, all).forEach(done -> progress.at(done, all));
    return err.toString();
  }

  @Test
  void keptText_hasALineForEachTenth() {
    String[] lines = shown(false, 1234).split("\n");
    assertEquals(11, lines.length);
    assertEquals("0 of 1234 modules compiled", lines[0]);
    assertEquals("124 of 1234 modules compiled", lines[1]);
    assertEquals("1234 of 1234 modules compiled", lines[10]);
  }

  @Test
  void terminal_hasOneLineThatIsWrittenOver() {
    String text = shown(true, 3);
    assertEquals(
        "\r0 of 3 modules compiled\r1 of 3 modules compiled\r2 of 3 modules compiled"
            + "\r3 of 3 modules compiled\n",
        text);
    assertEquals(101, shown(true, 5000).split("\r").length - 1);
  }
}
