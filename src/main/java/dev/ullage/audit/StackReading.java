package dev.ullage.audit;

import dev.ullage.measure.ElfProgram;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.StackBound;
import dev.ullage.measure.StackPath;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * How deep the stack of a program is: from its instructions or, where those do not tell, from the
 * compiler's call-graph files.
 */
final class StackReading {
  /** More than the largest AVR has. */
  private static final long MOST_AVR_CODE = 512 * 1024;

  private static final long MOST_CODE = 2048 * 1024;

  // Bytes of the header of an ELF file, and what they are where instructions are followed.
  private static final int CLASS = 4;
  private static final int SMALL = 1;
  private static final int ORDER = 5;
  private static final int LITTLE = 1;

  // The frame that an exception pushes, with 4 bytes to align it: ARMv7-M Architecture Reference
  // Manual, B1.5.6 and B1.5.7; the longer one with floating-point registers.
  private static final int ARM_FRAME = 32 + 4;
  private static final int ARM_FRAME_WITH_FLOATS = 104 + 4;
  private static final int ARM_HARD_FLOAT = 0x400;
  private static final Pattern HANDLER =
      Pattern.compile(".*(_|IRQ)([hH]andler|isr|ISR|irq)|.*_(isr|irq)_?.*");

  private final ElfProgram program;
  private final CallFiles calls;

  StackReading(ElfProgram program, CallFiles calls) {
    this.program = program;
    this.calls = calls;
  }

  Stack stack(byte[] bytes) {
    if (program.names().isEmpty()) {
      return Stack.unknown("the program has no symbol table");
    }
    if (program.machine() == ElfProgram.AVR) {
      return followed(bytes, MOST_AVR_CODE);
    }
    boolean linkRegister =
        program.machine() == ElfProgram.ARM || program.machine() == ElfProgram.RISCV;
    if (!linkRegister) {
      return Stack.unknown("stacks are followed on AVR, ARM and RISC-V only");
    }
    boolean readable = bytes[CLASS] == SMALL && bytes[ORDER] == LITTLE;
    Stack followed = readable ? followed(bytes, MOST_CODE) : fromFiles();
    if (followed.isBound() || calls.isEmpty()) {
      return followed;
    }
    // The compiler may know a bound where instructions alone do not show it.
    Stack said = fromFiles();
    return said.isBound() ? said : followed;
  }

  private Stack fromFiles() {
    if (calls.isEmpty()) {
      String alone = calls.deepestAlone().map(words -> "; " + words).orElse("");
      return Stack.unknown(
          "no call-graph files are there, which -fstack-usage -fcallgraph-info=su writes" + alone);
    }
    Set<String> handlers = handlers();
    return calls.stack(handlers::contains, interruptBytes());
  }

  private Stack followed(byte[] bytes, long mostCode) {
    long code =
        program.sections().stream().filter(Section::executable).mapToLong(Section::size).sum();
    if (code > mostCode) {
      return Stack.unknown("the program is larger than any part's");
    }
    StackBound bound = LinkedProgram.read(program.file(), bytes).stack();
    List<StackPath.Step> path =
        Stream.concat(bound.main().stream(), bound.interrupt().stream()).toList();
    return bound
        .unbounded()
        .map(Stack::unbounded)
        .orElseGet(() -> Stack.bound(bound.bytes(), path));
  }

  private int interruptBytes() {
    if (program.machine() != ElfProgram.ARM) {
      return 0;
    }
    return (program.flags() & ARM_HARD_FLOAT) == 0 ? ARM_FRAME : ARM_FRAME_WITH_FLOATS;
  }

  /** On ARM what the vector table names; elsewhere what is named like a handler. */
  private Set<String> handlers() {
    Set<String> handlers = new HashSet<>();
    Set<Long> vectors = new HashSet<>(vectors());
    for (Name each : program.names()) {
      boolean function = each.type() == Type.FUNCTION;
      if (function && vectors.contains(each.value() & ~1L)) {
        handlers.add(each.text());
      } else if (function && vectors.isEmpty() && HANDLER.matcher(each.text()).matches()) {
        handlers.add(each.text());
      }
    }
    handlers.remove("Reset_Handler");
    handlers.remove("main");
    return handlers;
  }

  private List<Long> vectors() {
    List<Long> addresses = new ArrayList<>();
    for (Section each : program.sections()) {
      boolean table = each.name().matches("\\.(isr_|int)?vec(tors?)?(_table)?");
      if (program.machine() == ElfProgram.ARM && table && each.filled()) {
        // The first word is the stack pointer, the second where the program starts.
        for (int at = 8; at + 4 <= Math.min(each.size(), 4096); at += 4) {
          addresses.add(Integer.toUnsignedLong(each.contents().word(at)) & ~1L);
        }
      }
    }
    return addresses;
  }
}
