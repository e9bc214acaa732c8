package dev.ullage.audit;

import java.util.List;
import java.util.regex.Pattern;

/** Kinds of library code that a small program can often do without, and how. */
enum Helper {
  PRINTF(
      "formatted printing",
      "write the digits by hand, as the emitted report does",
      "_?v?s?n?i?f?printf(_r)?|_?(v|vf)printf.*|__ultoa_invert|_printf_.*|_dtoa_r|.*printf_P"
          + "|_svfi?printf_r|__s?sprint_r|__ssputs_r"),
  SCANF(
      "reading of text numbers",
      "take the digits one by one as they arrive",
      "_?v?s?f?i?scanf.*|_?strto(l|ul|d|f|ll|ull)(_r|_l)?|ato[ilf]"),
  FLOAT(
      "floating point",
      "count in whole steps of the sensor and convert limits to raw values before they are"
          + " compiled",
      "__(add|sub|mul|div|neg|cmp|eq|ne|lt|le|gt|ge|unord)[sdt]f[23]x?|__fix(uns)?[sdt]f[sdt]i"
          + "|__float(un)?[sdt]i[sdt]f|__(extend|trunc)[sdt]f[sdt]f2|__aeabi_c?[fd](add|r?sub|mul"
          + "|div|cmp.*|r?cmp.*|2.*)|__aeabi_u?[il]2[fd]|__fp_.*|___fs.*|___(u?(int|char|long))2fs"
          + "|(a?(sin|cos|tan)|sqrt|pow|exp|log|log10|floor|ceil|round|fmod)f?"),
  WIDE(
      "64-bit arithmetic",
      "keep sums in 32 bits: sample bits and the bits of the count must fit",
      "__u?(add|sub|neg|mul|div|mod|divmod|ashl|ashr|lshr|cmp|ucmp)di[234](_.*)?"
          + "|__adddi3.*|__aeabi_u?ldivmod|__aeabi_l(mul|lsl|lsr|asr|cmp)|__.*longlong"),
  DIVISION(
      "a division or a remainder",
      "divide by a power of two, which is a shift, or compare with a multiple of the limit",
      "__u?(div|mod|divmod)[qhps]+i[34](_.*)?|__aeabi_u?idiv(mod|0)?|__(div|mod)[us](int|long"
          + "|char|suchar|uschar)|__negsi2|__(div|mod)(u|s)?(int|long)"),
  MULTIPLICATION(
      "a multiplication that the part has no instruction for",
      "multiply by sums of powers of two, or keep one side to 8 bits",
      "__u?(mul|umul|mulu|muls|mulsu|usmul|mulhi|umulhi)[a-z]*[qhs]i3(_helper)?"
          + "|__mul(int|long|u|s)[a-z]*|__aeabi_lmul"),
  SHIFT(
      "a shift by a distance that changes",
      "shift by a constant, or by one in a loop that runs anyway",
      "__(ashl|ashr|lshr)[qhps]+i3"),
  SWITCH(
      "a table of jumps for a switch",
      "-fno-jump-tables, or a chain of comparisons",
      "__tablejump.*|__gnu_thumb1_case.*"),
  HEAP(
      "memory that is handed out while the program runs",
      "arrays of a fixed size, which are counted before the part is bought",
      "_?(malloc|calloc|realloc|free|sbrk)(_r)?|__malloc_.*|_Zn[wa][jm]|_Zd[la]Pv[jm]?"),
  EXCEPTIONS(
      "exceptions and unwinding",
      "-fno-exceptions -fno-unwind-tables",
      "_Unwind.*|__gxx_personality.*|__cxa_.*|__aeabi_unwind.*|__gnu_[uU]nwind.*|get_eit_entry"
          + "|__gnu_Unwind.*");

  private final String reason;
  private final String cheaper;
  private final Pattern names;

  Helper(String reason, String cheaper, String names) {
    this.reason = reason;
    this.cheaper = cheaper;
    this.names = Pattern.compile(names);
  }

  String reason() {
    return reason;
  }

  String cheaper() {
    return cheaper;
  }

  static java.util.Optional<Helper> of(String symbol) {
    return List.of(values()).stream()
        .filter(helper -> helper.names.matcher(symbol).matches())
        .findFirst();
  }
}
