package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is read where there is no ELF file. */
class OtherFilesTest {
  private static final String SOURCE =
      """
      volatile unsigned int first = 7;
      volatile unsigned int window[9];
      const unsigned char steps[11] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
      void main(void) {
        for (;;) {
          window[first & 7] += first / (steps[first & 7] + 1u);
        }
      }
      """;

  @TempDir private Path folder;

  private static Measured hex(String text) {
    return IntelHex.read(new TextFile("a.hex", text));
  }

  @Test
  void hexFile_isCountedByRange() {
    Measured measured =
        hex(
            """
            :0300300002337A1E
            :020000040001F9
            :0400000001020304F2
            :02000400AABB95
            :00000001FF
            """);
    assertEquals(9, measured.figures().flash());
    assertEquals("(0x0030 to 0x0032)", measured.pieces().get(0).symbol());
    assertEquals("(0x10000 to 0x10005)", measured.pieces().get(1).symbol());
    assertFalse(measured.figures().ramKnown());
  }

  @ParameterizedTest
  @CsvSource({
    "':0300300002337A1F', 'check byte does not match'",
    "':0300300002337A1E', 'cut short'",
    "':0300300002337A1E\n:0200310000AA23\n:00000001FF', 'filled already'",
    "':0400300002337A1D', '3 bytes'",
    "'hello', 'something else'",
    "':00000001FF\n:0300300002337A1E', 'followed by more'"
  })
  void damagedHexFile_isFound(String text, String what) {
    InputException wrong = assertThrows(InputException.class, () -> hex(text));
    assertTrue(wrong.getMessage().contains(what), wrong.getMessage());
  }

  private Path sdcc(String machine) throws IOException {
    Tool.require("sdcc");
    Files.writeString(folder.resolve("n.c"), SOURCE);
    Tool.output(folder, "sdcc", machine, "n.c");
    return folder.resolve("n.ihx");
  }

  @Test
  void stm8Map_agreesWithTheImage() throws IOException {
    Measured image = Artefacts.read(sdcc("-mstm8"), Optional.empty());
    Measured measured = Artefacts.read(folder, Optional.empty());
    assertTrue(measured.file().endsWith("n.map"), measured.file());
    assertEquals(image.figures().flash(), measured.figures().flash());
    assertEquals(2 + 18, measured.figures().staticRam());
    assertEquals(2, measured.figures().data());
    assertEquals(11, measured.figures().constants());
    assertEquals(18, bytes(measured, "_window"));
    assertEquals(
        "n",
        measured.pieces().stream()
            .filter(each -> each.symbol().equals("_main"))
            .findFirst()
            .orElseThrow()
            .module());
  }

  private static int bytes(Measured measured, String symbol) {
    return measured.pieces().stream()
        .filter(each -> each.symbol().equals(symbol))
        .mapToInt(Piece::bytes)
        .sum();
  }

  @Test
  void mcs51Memory_agreesWithTheImage() throws IOException {
    Measured image = Artefacts.read(sdcc("-mmcs51"), Optional.empty());
    Measured measured = Artefacts.read(folder, Optional.empty());
    assertTrue(measured.file().endsWith("n.mem"), measured.file());
    // The linker's table counts up to the last byte, holes included; here there are none.
    assertEquals(image.figures().flash(), measured.figures().flash());
    int stackAt =
        Integer.parseInt(
            Files.readString(folder.resolve("n.mem"))
                .replaceAll("(?s).*Stack starts at: 0x([0-9a-f]+).*", "$1"),
            16);
    assertEquals(stackAt, measured.figures().staticRam(), "everything below the stack");
    assertEquals(256, measured.capacity().ram().orElseThrow());
    assertEquals(
        "a division or a remainder",
        LibraryUse.of(measured, Optional.empty()).get(0).reason(),
        "__divuint");
  }

  @Test
  void severalPrograms_areAskedAbout() throws IOException {
    Files.writeString(folder.resolve("a.elf"), "");
    Files.writeString(folder.resolve("b.elf"), "");
    InputException wrong =
        assertThrows(InputException.class, () -> Artefacts.read(folder, Optional.empty()));
    assertTrue(wrong.getMessage().contains("name the file to audit"), wrong.getMessage());
  }
}
