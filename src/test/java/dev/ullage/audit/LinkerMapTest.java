package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import org.junit.jupiter.api.Test;

class LinkerMapTest {
  private static final String MAP =
      """
      Archive member included to satisfy reference by file (symbol)

      /usr/lib/gcc/avr/5.4.0/avr25/libgcc.a(_udivmodhi4.o)
                                    build/menu.o (__udivmodhi4)
      libm.a(mulsf3.o)              build/menu.o (__mulsf3)

      Discarded input sections

       .text.unused   0x0000000000000000       0x99 build/menu.o

      Memory Configuration

      Name             Origin             Length             Attributes
      FLASH            0x0000000008000000 0x0000000000004000 xr
      RAM              0x0000000020000000 0x0000000000000800 xrw
      *default*        0x0000000000000000 0xffffffffffffffff

      Linker script and memory map

      LOAD build/menu.o

      .text           0x0000000000000000       0x40
       *(.text)
       .text.draw     0x0000000000000000       0x10 build/menu.o
                      0x0000000000000000                draw
       .text.a_function_with_a_long_name
                      0x0000000000000010       0x20 build/menu.o
       *fill*         0x0000000000000030        0x2
       .text          0x0000000000000032        0xe /usr/lib/gcc/avr/5.4.0/avr25/libgcc.a(_udivmodhi4.o)

      .comment        0x0000000000000000       0x11
       .comment       0x0000000000000000       0x11 build/menu.o
      """;

  private static LinkerMap read(String text) {
    return LinkerMap.read(new TextFile("a.map", text));
  }

  @Test
  void stretches_areThoseOfTheSection() {
    var stretches = read(MAP).stretches(".text");
    assertEquals(3, stretches.size(), stretches.toString());
    assertEquals(
        new LinkerMap.Stretch(0x10, 0x20, ".text.a_function_with_a_long_name", "build/menu.o"),
        stretches.get(0x10L));
    assertEquals("libgcc.a(_udivmodhi4.o)", stretches.get(0x32L).object());
    assertEquals(".text.draw", stretches.get(0L).section(), "and not .comment");
  }

  @Test
  void askers_areKnown() {
    assertEquals("build/menu.o (__udivmodhi4)", read(MAP).askedBy().get("libgcc.a(_udivmodhi4.o)"));
    assertEquals("build/menu.o (__mulsf3)", read(MAP).askedBy().get("libm.a(mulsf3.o)"));
  }

  @Test
  void memories_areThoseOfTheScript() {
    assertEquals(0x4000, read(MAP).capacity().flash().orElseThrow());
    assertEquals(0x800, read(MAP).capacity().ram().orElseThrow());
    assertTrue(read(MAP).capacity().eeprom().isEmpty());
  }

  @Test
  void anotherText_isNoMap() {
    assertThrows(InputException.class, () -> read("a map of nowhere"));
  }
}
