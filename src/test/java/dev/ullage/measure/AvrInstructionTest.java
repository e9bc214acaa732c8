package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.measure.AvrInstruction.Operation;
import dev.ullage.testing.Toolchain;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Holds the decoder against the disassembler of the GNU binutils. */
class AvrInstructionTest {
  @TempDir Path folder;

  private static final Map<String, Operation> OPERATIONS =
      Map.ofEntries(
          Map.entry("push", Operation.PUSH),
          Map.entry("pop", Operation.POP),
          Map.entry("in", Operation.IN),
          Map.entry("out", Operation.OUT),
          Map.entry("mov", Operation.MOVE),
          Map.entry("movw", Operation.MOVE_WORD),
          Map.entry("ldi", Operation.LOAD_CONSTANT),
          Map.entry("adiw", Operation.ADD_WORD),
          Map.entry("sbiw", Operation.ADD_WORD),
          Map.entry("subi", Operation.SUBTRACT),
          Map.entry("sbci", Operation.SUBTRACT_WITH_CARRY),
          Map.entry("cpse", Operation.SKIP),
          Map.entry("sbrc", Operation.SKIP),
          Map.entry("sbrs", Operation.SKIP),
          Map.entry("sbic", Operation.SKIP),
          Map.entry("sbis", Operation.SKIP),
          Map.entry("rjmp", Operation.JUMP),
          Map.entry("jmp", Operation.JUMP_ABSOLUTE),
          Map.entry("ijmp", Operation.JUMP_INDIRECT),
          Map.entry("eijmp", Operation.JUMP_INDIRECT),
          Map.entry("rcall", Operation.CALL),
          Map.entry("call", Operation.CALL_ABSOLUTE),
          Map.entry("icall", Operation.CALL_INDIRECT),
          Map.entry("eicall", Operation.CALL_INDIRECT),
          Map.entry("ret", Operation.RETURN),
          Map.entry("reti", Operation.RETURN),
          Map.entry("sei", Operation.ENABLE_INTERRUPTS),
          Map.entry("mul", Operation.OTHER_WORD),
          Map.entry("muls", Operation.OTHER_WORD),
          Map.entry("mulsu", Operation.OTHER_WORD),
          Map.entry("fmul", Operation.OTHER_WORD),
          Map.entry("fmuls", Operation.OTHER_WORD),
          Map.entry("fmulsu", Operation.OTHER_WORD));

  @Test
  void everyWord_isReadAsTheDisassemblerReadsIt() {
    Toolchain.avr();
    // Each first word is followed by one that completes the long instructions: nothing in it is
    // special, and as an instruction of its own it is a `nop` with another name.
    StringBuilder source = new StringBuilder();
    for (int word = 0; word < 0x10000; word++) {
      source.append(".word ").append(word).append("\n.word 0\n");
    }
    Toolchain.compile("atmega2560", "all.S", source.toString(), folder);
    int compared = 0;
    for (String line :
        Toolchain.run(List.of("avr-objdump", "-d", "-m", "avr:6", "all.o"), folder).split("\n")) {
      compared += compare(line) ? 1 : 0;
    }
    assertTrue(compared > 60_000, "compared " + compared);
  }

  private static boolean compare(String line) {
    String[] fields = line.split("\t");
    if (fields.length < 3 || fields[2].startsWith(".")) {
      return false;
    }
    String[] bytes = fields[1].strip().split(" ");
    String mnemonic = fields[2].strip();
    AvrInstruction decoded =
        AvrInstruction.decode(
            Integer.parseInt(bytes[1] + bytes[0], 16),
            bytes.length == 4 ? Integer.parseInt(bytes[3] + bytes[2], 16) : 0);
    assertEquals(bytes.length, decoded.length(), line);
    Operation expected =
        mnemonic.startsWith("br") && !mnemonic.equals("break")
            ? Operation.BRANCH
            : OPERATIONS.getOrDefault(mnemonic, Operation.OTHER);
    assertEquals(expected, decoded.operation(), line);
    if (fields.length > 3) {
      checkOperands(decoded, mnemonic, fields[3].strip(), line);
    }
    return true;
  }

  private static void checkOperands(
      AvrInstruction decoded, String mnemonic, String operands, String line) {
    String[] parts = operands.split(", ");
    switch (mnemonic) {
      case "push", "out" -> assertEquals(parts[parts.length - 1], "r" + decoded.from(), line);
      case "pop",
              "in",
              "ldi",
              "subi",
              "sbci",
              "add",
              "adc",
              "lds",
              "ldd",
              "ld",
              "lpm",
              "bld",
              "com",
              "inc",
              "andi",
              "ori",
              "eor",
              "adiw",
              "sbiw",
              "mov",
              "movw" ->
          assertEquals(parts[0], "r" + decoded.to(), line);
      case "st", "std", "sts", "cp", "cpc", "cpi", "bst", "nop" ->
          assertEquals(-1, decoded.to(), line);
      case "rjmp", "rcall" ->
          assertEquals(Integer.parseInt(operands.substring(1)), decoded.value(), line);
      default -> {}
    }
    if (List.of("adiw", "subi", "sbci", "in").contains(mnemonic)) {
      assertEquals(Integer.decode(parts[1]), decoded.value(), line);
    }
    if (mnemonic.equals("sbiw")) {
      assertEquals(-Integer.decode(parts[1]), decoded.value(), line);
    }
  }
}
