package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The words of the RP2040's boot stage against the assembly beside them, and their checksum. */
class BootStageTest {
  private static final Path TEMPLATE = Path.of("templates/rp2040/port/boot.c.ftl");
  private static final int WORDS = 64;

  @TempDir Path folder;

  private static String template() throws IOException {
    return Files.readString(TEMPLATE);
  }

  /** As the array's initialiser has them: words in their order, and one by its place. */
  private static List<Integer> words() throws IOException {
    String text = template();
    List<Integer> words = new ArrayList<>();
    Matcher word =
        Pattern.compile("(?:\\[(\\d+)\\] = )?0x([0-9A-F]{8})u,")
            .matcher(text.substring(text.indexOf("= {")));
    while (word.find()) {
      while (word.group(1) != null && words.size() < Integer.parseInt(word.group(1))) {
        words.add(0);
      }
      words.add(Integer.parseUnsignedInt(word.group(2), 16));
    }
    return words;
  }

  private static byte[] bytes(List<Integer> words) {
    ByteBuffer bytes = ByteBuffer.allocate(4 * words.size()).order(ByteOrder.LITTLE_ENDIAN);
    words.forEach(bytes::putInt);
    return bytes.array();
  }

  /** RP2040 data sheet, 2.8.1.3.1: polynomial 04C11DB7h, from all ones, highest bit first. */
  private static int crc(byte[] bytes) {
    int crc = -1;
    for (byte each : bytes) {
      crc ^= each << 24;
      for (int bit = 0; bit < Byte.SIZE; bit++) {
        crc = crc < 0 ? crc << 1 ^ 0x04C11DB7 : crc << 1;
      }
    }
    return crc;
  }

  /** The check value of CRC-32/MPEG-2, which has these parameters (catalogue of CRC algorithms). */
  @Test
  void checksum_isTheOneOfTheCatalogue() {
    assertEquals(0x0376E6E7, crc("123456789".getBytes(StandardCharsets.US_ASCII)));
  }

  @Test
  void lastWord_isTheChecksumOfTheOthers() throws IOException {
    List<Integer> words = words();
    assertEquals(WORDS, words.size());
    assertEquals(words.get(WORDS - 1), crc(bytes(words.subList(0, WORDS - 1))));
  }

  @Test
  void words_areWhatTheAssemblyComesTo() throws IOException {
    Tool.require("arm-none-eabi-as", "arm-none-eabi-objcopy");
    String text = template();
    int from = text.indexOf("    .syntax");
    Files.writeString(folder.resolve("boot.s"), text.substring(from, text.indexOf("*/", from)));
    Tool.output(folder, "arm-none-eabi-as", "-o", "boot.o", "boot.s");
    Tool.output(folder, "arm-none-eabi-objcopy", "-O", "binary", "boot.o", "boot.bin");
    byte[] assembled = Files.readAllBytes(folder.resolve("boot.bin"));
    int count = assembled.length / Integer.BYTES;
    List<Integer> words = words();
    assertTrue(count > 10 && count < WORDS, count + " words");
    assertEquals(
        ByteBuffer.wrap(assembled).order(ByteOrder.LITTLE_ENDIAN),
        ByteBuffer.wrap(bytes(words.subList(0, count))));
    assertTrue(words.subList(count, WORDS - 1).stream().allMatch(word -> word == 0), "the rest");
  }
}
