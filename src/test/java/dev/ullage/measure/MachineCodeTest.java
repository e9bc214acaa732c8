package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Hand-written instructions, of which the stack was counted by hand. */
class MachineCodeTest {
  @TempDir Path folder;

  private static final String HEAD =
      """
      .syntax unified
      .thumb
      .section .isr_vector, "a"
      .word 0x20001000, Reset, Stop, Stop, 0, Tick
      .text
      .thumb_func
      .type leaf, %function
      leaf: bx lr
      .size leaf, . - leaf
      .thumb_func
      .type Stop, %function
      Stop: b .
      .size Stop, . - Stop
      .thumb_func
      .type Tick, %function
      Tick: push {r4, lr}
        bl leaf
        pop {r4, pc}
      .size Tick, . - Tick
      .thumb_func
      .type Reset, %function
      .global Reset
      Reset: ldr r0, =0x20001000
        mov sp, r0
        bl main
        b .
        .ltorg
      .size Reset, . - Reset
      .global main
      .thumb_func
      .type main, %function
      """;

  /** One form each; what {@code main} holds at its deepest. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "M0 | 8  | push {r4, lr}; pop {r4, pc}",
        "M0 | 24 | push {r0, r1, r2, r3, r7, lr}; add sp, #16; pop {r7, pc}",
        "M0 | 508 | sub sp, #508; add sp, #508; bx lr",
        "M0 | 1028 | ldr r4, =-1028; add sp, r4; ldr r4, =1028; add sp, r4; bx lr",
        "M0 | 512 | movs r3, #128; lsls r3, #2; negs r2, r3; add sp, r2; add sp, r3; bx lr",
        "M0 | 48 | push {r7, lr}; sub sp, #40; mov r7, sp; mov sp, r7; add sp, #40; pop {r7, pc}",
        "M0 | 20 | push {r0-r3}; push {lr}; pop {r3}; add sp, #16; bx r3",
        "M0 | 8 | cmp r0, #0; beq 1f; bx lr; 1: push {r4, lr}; pop {r4, pc}",
        "M0 | 12 | push {r4, r5, lr}; ldr r3, =leaf; blx r3; pop {r4, r5, pc}",
        "M0 | 4 | push {lr}; bl 1f; nop; 1: pop {pc}",
        "M3 | 36 | push.w {r4-r11, lr}; pop.w {r4-r11, pc}",
        "M3 | 4 | str lr, [sp, #-4]!; ldr pc, [sp], #4",
        "M3 | 16 | str lr, [sp, #-16]!; ldr lr, [sp], #16; bx lr",
        "M3 | 16 | strd r4, lr, [sp, #-16]!; ldrd r4, lr, [sp], #16; bx lr",
        "M3 | 1024 | sub.w sp, sp, #1024; add.w sp, sp, #1024; bx lr",
        "M3 | 1001 | subw sp, sp, #1001; addw sp, sp, #1001; bx lr",
        "M3 | 70000 | movw r3, #4464; movt r3, #1; sub sp, sp, r3; add sp, sp, r3; bx lr",
        "M3 | 8 | cmp r0, #0; it eq; bxeq lr; push {r4, lr}; pop {r4, pc}",
        "M3 | 8 | push {r4, lr}; cmp r0, #0; it ne; popne {r4, pc}; pop {r4, pc}",
        "M3 | 8 | cbz r0, 1f; bx lr; 1: push {r4, lr}; pop {r4, pc}",
        "M3 | 16 | tbb [pc, r0]; .byte 2, 4; .align 1; b 9f; nop; b 8f; 9: push {r4, lr}; pop {r4, pc}; 8: push {r4-r6, lr}; pop {r4-r6, pc}",
        "M3 | 8 | mov r0, sp; bic r1, r0, #7; mov sp, r1; push {r0, lr}; pop {r0, lr}; mov sp, r0; bx lr",
        "RV32EC | 16 | addi sp, sp, -16; addi sp, sp, 16; ret",
        "RV32EC | 496 | addi sp, sp, -496; addi sp, sp, 496; ret",
        "RV32EC | 4112 | li t1, -4112; add sp, sp, t1; li t1, 4112; add sp, sp, t1; ret",
        "RV32EC | 4112 | li t1, 4112; sub sp, sp, t1; add sp, sp, t1; ret",
        "RV32EC | 32 | addi sp, sp, -32; addi s0, sp, 32; addi sp, s0, -32; addi sp, sp, 32; ret",
        "RV32EC | 4 | addi sp, sp, -4; sw ra, 0(sp); call leaf; lw ra, 0(sp); addi sp, sp, 4; ret",
        "RV32EC | 0 | mv t0, ra; jal leaf; jr t0",
        "RV32EC | 16 | jal t0, save; lw ra, 12(sp); addi sp, sp, 16; ret",
        "RV32EC | 8 | beqz a0, 1f; ret; 1: addi sp, sp, -8; addi sp, sp, 8; ret",
        "RV32EC | 0 | la t1, leaf; jr t1",
        "RV32IMAC | 32 | c.addi16sp sp, -32; c.addi4spn a0, sp, 8; c.addi16sp sp, 32; c.jr ra",
        "RV32IMAC | 64 | andi sp, sp, -16; addi sp, sp, -64; addi sp, sp, 64; ret"
      })
  void instructions_holdWhatWasCounted(CrossTools tools, int bytes, String instructions)
      throws IOException {
    LinkedProgram program = assembled(tools, instructions);
    Symbol main = program.symbol("main").orElseThrow();
    assertEquals(Optional.empty(), main.unbounded());
    assertEquals(bytes, main.ownStack());
    assertEquals(Optional.empty(), program.stack().unbounded());
    // Tick pushes two registers; the hardware eight before that, and a word to align them.
    int interrupt = tools.isArm() ? 8 + 32 + 4 : 0;
    assertEquals(bytes + interrupt, program.stack().bytes());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "M0 | main calls a computed address at main+0x2 | ldr r3, [r0, #0]; blx r3; b .",
        "M0 | main jumps to a computed address at main | bx r0",
        "M0 | main sets the stack pointer to something unknown at main+0x2 | push {lr}; mov sp, r0; b .",
        "M0 | main returns with 4 bytes on its stack at main+0x2 | push {r4}; bx lr",
        "M0 | main calls itself | push {r4, lr}; bl main; pop {r4, pc}",
        "M3 | main sets the stack pointer to something unknown at main | msr msp, r0; b .",
        "M3 | main has 0 or 4 bytes on its stack where paths meet at main+0x6 | cbz r0, 1f; push {r4}; nop; 1: b .",
        "RV32EC | main calls a computed address at main | jalr a0; j .",
        "RV32EC | main sets the stack pointer to something unknown at main | sub sp, sp, a0; j .",
        "RV32EC | main calls itself | addi sp, sp, -4; jal main; j ."
      })
  void whatHasNoBound_isReportedWithItsPlace(CrossTools tools, String why, String instructions)
      throws IOException {
    assertEquals(Optional.of(why), assembled(tools, instructions).stack().unbounded());
  }

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void tableOfCases_isFollowed(CrossTools tools) throws IOException {
    tools.require();
    for (String level : List.of("-Os", "-O2")) {
      Path file =
          tools.link(
              folder,
              List.of(
                  tools.compile(folder, "frames.c", PortableSnippets.FRAMES, level),
                  tools.compile(folder, "main.c", PortableSnippets.MAIN, level),
                  tools.compile(folder, "start.c", PortableSnippets.START, level)),
              level);
      List<String> called =
          LinkedProgram.read(file).symbol("choose").orElseThrow().edges().stream()
              .map(Symbol.Edge::target)
              .toList();
      assertTrue(
          called.containsAll(List.of("leaf", "other", "small", "medium", "call_many", "hand_over")),
          called::toString);
    }
  }

  /** On RISC-V a handler is known by how it returns; the hardware pushes nothing. */
  @Test
  void trapHandler_comesOnTop() throws IOException {
    String handler =
        """
        addi sp, sp, -4
          ret
        .size main, . - main
        .type Trap, %function
        Trap: addi sp, sp, -24
          jal leaf
          addi sp, sp, 24
          mret
        .size Trap, . - Trap
        """;
    LinkedProgram program =
        assembled(CrossTools.RV32EC, "addi sp, sp, -4; addi sp, sp, 4; ret\n" + trap(handler));
    assertEquals(4 + 24, program.stack().bytes());
    assertEquals("Trap", program.stack().interrupt().get(0).function());
    String open = handler.replace("jal leaf", "csrsi mstatus, 8");
    Optional<String> why =
        assembled(CrossTools.RV32IMAC, "addi sp, sp, -4; addi sp, sp, 4; ret\n" + trap(open))
            .stack()
            .unbounded();
    assertEquals(Optional.of("Trap lets other interrupts in"), why);
  }

  private static String trap(String text) {
    return text.substring(text.indexOf(".size"));
  }

  private LinkedProgram assembled(CrossTools tools, String instructions) throws IOException {
    tools.require();
    String body = instructions.replace("; ", "\n  ");
    String source =
        tools.isArm()
            ? HEAD + "main: " + body + "\n.align 2\n.ltorg\n.size main, . - main\n"
            : RISCV_HEAD + "main: " + body + "\n.ifndef Trap\n.size main, . - main\n.endif\n";
    return LinkedProgram.read(tools.link(folder, List.of(tools.compile(folder, "x.S", source))));
  }

  private static final String RISCV_HEAD =
      """
      .option norelax
      .option arch, +zicsr
      .type leaf, %function
      leaf: nop
        ret
      .size leaf, . - leaf
      .type __riscv_save_0, %function
      __riscv_save_0:
      save: addi sp, sp, -16
        sw ra, 12(sp)
        jr t0
      .size __riscv_save_0, . - __riscv_save_0
      .global Reset
      .type Reset, %function
      Reset: la sp, 0x20001000
        call main
        j .
      .size Reset, . - Reset
      .global main
      .type main, %function
      """;
}
