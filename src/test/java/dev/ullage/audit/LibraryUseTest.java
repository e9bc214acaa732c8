package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LibraryUseTest {

  /** Names as the libraries of avr-gcc, arm-none-eabi-gcc, riscv-gcc and sdcc have them. */
  @ParameterizedTest
  @CsvSource({
    "__udivmodhi4, DIVISION",
    "__divmodsi4, DIVISION",
    "__aeabi_uidiv, DIVISION",
    "__aeabi_idivmod, DIVISION",
    "__umodsi3, DIVISION",
    "__divuint, DIVISION",
    "__modsint, DIVISION",
    "__mulsi3, MULTIPLICATION",
    "__umulhisi3, MULTIPLICATION",
    "__mulint, MULTIPLICATION",
    "__addsf3, FLOAT",
    "__mulsf3x, FLOAT",
    "__fixunssfsi, FLOAT",
    "__aeabi_fadd, FLOAT",
    "__aeabi_ui2f, FLOAT",
    "__aeabi_d2iz, FLOAT",
    "___fsadd, FLOAT",
    "__adddi3, WIDE",
    "__aeabi_uldivmod, WIDE",
    "__lshrdi3, WIDE",
    "__udivdi3, WIDE",
    "vfprintf, PRINTF",
    "snprintf, PRINTF",
    "_printf_float, PRINTF",
    "sscanf, SCANF",
    "strtol, SCANF",
    "malloc, HEAP",
    "_sbrk, HEAP",
    "__tablejump2__, SWITCH",
    "__gnu_thumb1_case_uqi, SWITCH",
    "__ashrsi3, SHIFT",
    "_Unwind_Resume, EXCEPTIONS"
  })
  void libraryNames_haveAReason(String name, String kind) {
    assertEquals(kind, Helper.of(name).orElseThrow().name());
  }

  @ParameterizedTest
  @CsvSource({"main", "alarm_judge", "__vectors", "memcpy", "average_add", "multiply", "printer"})
  void ordinaryNames_haveNone(String name) {
    assertTrue(Helper.of(name).isEmpty(), name);
  }

  @Test
  void cures_areSentencesWithoutAStop() {
    for (Helper each : Helper.values()) {
      assertTrue(!each.cheaper().endsWith(".") && !each.reason().endsWith("."), each.name());
    }
  }
}
