package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.proof.LinkMap.Bytes;
import java.util.Map;
import org.junit.jupiter.api.Test;

class LinkMapTest {
  /** Shortened from a map of binutils 2.26. */
  private static final String MAP =
      """
      Discarded input sections

       .text          0x0000000000000000        0x7 alarm.o

      Memory Configuration

      Linker script and memory map

      LOAD alarm.o

      .rela.plt

      .text           0x0000000000000000      0x71c
       *(.vectors)
       .vectors       0x0000000000000000       0x68 /usr/lib/avr5/crtatmega328p.o
                      0x0000000000000000                __vectors
       *fill*         0x0000000000000068        0x1\s
       .trampolines   0x0000000000000068        0x0 linker stubs
       .init4         0x0000000000000074       0x10 /usr/lib/avr5/libgcc.a(_clear_bss.o)
       .text.alarm_set
                      0x0000000000000090        0x8 alarm.o
                      0x0000000000000090                alarm_set
       .text.alarm_fault
                      0x0000000000000098       0x20 alarm.o

      .data           0x0000000000800100        0x3 load address 0x000000000000071c
       .data          0x0000000000800100        0x3 average.o

      .bss            0x0000000000800103       0x0c
       .bss.alarm_on  0x0000000000800103        0xc alarm.o

      .comment        0x0000000000000000       0x11
       .comment       0x0000000000000000       0x11 alarm.o
      """;

  @Test
  void bytes_goToTheFileThatBringsThem() {
    assertEquals(
        Map.of(
            "crtatmega328p.o", new Bytes(0x68, 0),
            "fill", new Bytes(1, 0),
            "linker stubs", new Bytes(0, 0),
            "libgcc.a(_clear_bss.o)", new Bytes(0x10, 0),
            "alarm.o", new Bytes(0x28, 0x0c),
            "average.o", new Bytes(3, 3)),
        LinkMap.parse(MAP).files());
  }
}
