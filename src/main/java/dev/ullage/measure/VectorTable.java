package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Section;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * The vector table of a Cortex-M: the first stack pointer, where the program starts, and where each
 * exception is served. ARMv7-M Architecture Reference Manual (DDI 0403E), B1.5.3.
 *
 * @param reset address of the routine that the program starts with
 * @param handlers addresses of those that serve exceptions
 */
record VectorTable(int reset, Set<Integer> handlers) {
  private static final Pattern NAME =
      Pattern.compile("\\.(isr_|int_|interrupt_)?vec(tors?)?(_table)?|\\.(isr|interrupts)");

  /** 16 of the system and 496 of the part. */
  private static final int MOST_ENTRIES = 512;

  /**
   * The table of a program: in a section of that name, or at the start of the lowest that has one.
   */
  static Optional<VectorTable> of(ElfProgram program, CodeSection code) {
    return program.sections().stream()
        .filter(each -> each.allocated() && each.filled() && each.size() >= 8)
        .sorted(
            Comparator.comparing((Section each) -> !NAME.matcher(each.name()).matches())
                .thenComparing(each -> each.loadAddress()))
        .flatMap(each -> read(each, code).stream())
        .findFirst();
  }

  private static Optional<VectorTable> read(Section section, CodeSection code) {
    int stack = section.contents().word(0);
    int reset = section.contents().word(4);
    boolean named = NAME.matcher(section.name()).matches();
    if ((stack & 3) != 0 || stack == 0 && !named || !isRoutine(reset, code)) {
      return Optional.empty();
    }
    Set<Integer> handlers = new LinkedHashSet<>();
    int end = Math.min(section.size() - 3, 4 * MOST_ENTRIES);
    for (int at = 8; at < end; at += 4) {
      int word = section.contents().word(at);
      if (isRoutine(word, code)) {
        handlers.add(word & ~1);
      } else if (word != 0 && !named && !isReserved(at / 4)) {
        break;
      }
    }
    handlers.remove(reset & ~1);
    return Optional.of(new VectorTable(reset & ~1, handlers));
  }

  /** Exceptions that no Cortex-M has: some makers keep a check sum there for their boot ROM. */
  private static boolean isReserved(int number) {
    return number >= 7 && number <= 10 || number == 13;
  }

  private static boolean isRoutine(int word, CodeSection code) {
    return (word & 1) != 0 && code.holds(word & ~1) && code.entry(word & ~1).isPresent();
  }
}
