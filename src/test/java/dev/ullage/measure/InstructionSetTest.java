package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.measure.RegisterInstruction.Operation;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Holds the decoders for ARM and RISC-V against the disassembler of the GNU binutils. */
class InstructionSetTest {
  @TempDir Path folder;

  /** Address, bytes, mnemonic, operands. */
  private static final Pattern LINE =
      Pattern.compile(
          "^ *([0-9a-f]+):\t([0-9a-f]{4,8}(?: [0-9a-f]{4})?) +\t([a-z][a-z0-9.]*)(?:\t(.*))?$");

  private static final Pattern ARM_BRANCH =
      Pattern.compile("(bl?(eq|ne|cs|cc|mi|pl|vs|vc|hi|ls|ge|lt|gt|le)?|cbn?z)(\\.[nw])?");
  private static final Pattern RISCV_BRANCH = Pattern.compile("j|jal|b(eq|ne|lt|ge|gt|le)[uz]?");
  private static final Pattern TARGET = Pattern.compile("(?:^|[, ])([0-9a-f]+) <");
  private static final Pattern ARM_FRAME =
      Pattern.compile("(add|sub)(?:w|\\.w)?\t(?:sp, )?sp, #([0-9]+)( .*)?");
  private static final Pattern RISCV_FRAME = Pattern.compile("(add)i?\tsp,sp,(-?[0-9]+)");
  private static final Pattern LISTED =
      Pattern.compile("(push|pop|stmdb|ldmia)(?:\\.w)?\t(?:sp!, )?\\{.*\\}");

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void wholeProgram_isReadAsTheDisassemblerReadsIt(CrossTools tools) {
    tools.require();
    Path program = tools.program(folder, PortableSnippets.LIBRARY, "-Os");
    int compared = 0;
    int branches = 0;
    int frames = 0;
    for (String text : tools.output(folder, "objdump", "-d", program.toString()).split("\n")) {
      Matcher line = LINE.matcher(text);
      if (line.matches()) {
        RegisterInstruction decoded = decode(tools, line);
        assertEquals(line.group(2).replace(" ", "").length() / 2, decoded.length(), text);
        branches += checkTarget(tools, line, decoded) ? 1 : 0;
        frames += checkFrame(tools, line, decoded) ? 1 : 0;
        compared++;
      }
    }
    System.out.printf(
        "%s: %d instructions, %d targets, %d frames%n", tools, compared, branches, frames);
    assertTrue(
        compared > 5000 && branches > 800 && frames > 40, compared + " " + branches + " " + frames);
  }

  private static RegisterInstruction decode(CrossTools tools, Matcher line) {
    int address = Integer.parseUnsignedInt(line.group(1), 16);
    String bytes = line.group(2);
    if (tools.isArm()) {
      String[] halves = bytes.split(" ");
      int next = halves.length > 1 ? Integer.parseInt(halves[1], 16) : 0;
      return ThumbInstruction.decode(address, Integer.parseInt(halves[0], 16), next);
    }
    int word = Integer.parseUnsignedInt(bytes, 16);
    return RiscvInstruction.decode(address, word & 0xFFFF, word >>> 16);
  }

  private static boolean checkTarget(CrossTools tools, Matcher line, RegisterInstruction decoded) {
    Pattern branch = tools.isArm() ? ARM_BRANCH : RISCV_BRANCH;
    boolean expected = branch.matcher(line.group(3)).matches();
    boolean found =
        decoded.operation() == Operation.JUMP || decoded.operation() == Operation.BRANCH;
    assertEquals(expected, found, line.group());
    if (expected) {
      Matcher target = TARGET.matcher(line.group(4));
      assertTrue(target.find(), line.group());
      assertEquals(Integer.parseUnsignedInt(target.group(1), 16), decoded.value(), line.group());
      assertEquals(line.group(3).matches("bl(eq|ne)?|jal"), decoded.to() >= 0, line.group());
    }
    return expected;
  }

  private static boolean checkFrame(CrossTools tools, Matcher line, RegisterInstruction decoded) {
    String text = line.group(3) + "\t" + line.group(4);
    Matcher frame = (tools.isArm() ? ARM_FRAME : RISCV_FRAME).matcher(text);
    if (frame.matches()) {
      int bytes = Integer.parseInt(frame.group(2)) * (frame.group(1).equals("sub") ? -1 : 1);
      assertEquals(Operation.ADD, decoded.operation(), text);
      assertEquals(bytes, decoded.value(), text);
      assertEquals(decoded.from(), decoded.to(), text);
    } else if (tools.isArm() && LISTED.matcher(text).matches()) {
      assertEquals(
          text.matches("(pop|ldm).*") ? Operation.POP : Operation.PUSH, decoded.operation());
      assertEquals(registers(text), Integer.bitCount(decoded.list()), text);
    } else {
      return false;
    }
    return true;
  }

  private static int registers(String text) {
    return text.substring(text.indexOf('{')).split(",").length;
  }
}
