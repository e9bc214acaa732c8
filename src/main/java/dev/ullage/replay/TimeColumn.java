package dev.ullage.replay;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.OptionalLong;

/**
 * The column of the time: numbers in a unit that its name ends with, or dates by ISO 8601.
 *
 * @param index from 0
 * @param name as the header has it
 */
record TimeColumn(int index, String name) {
  static final String EXPECTED = "a number, or a date such as 2026-05-01T06:30:00";

  private static final Map<String, Integer> MS_IN =
      Map.of("ms", 1, "s", 1_000, "min", 60_000, "h", 3_600_000);
  private static final BigDecimal MOST_MS = BigDecimal.valueOf(Long.MAX_VALUE / 4);

  /** The time of a cell in milliseconds from some fixed moment; empty if it is none. */
  OptionalLong ms(String text) {
    if (Cells.isNumber(text)) {
      BigDecimal ms = new BigDecimal(text).multiply(BigDecimal.valueOf(msInUnit()));
      return ms.abs().compareTo(MOST_MS) > 0
          ? OptionalLong.empty()
          : OptionalLong.of(ms.setScale(0, RoundingMode.HALF_UP).longValueExact());
    }
    return date(text.replace(' ', 'T'));
  }

  /** Milliseconds where the name has no unit. */
  private int msInUnit() {
    return MS_IN.getOrDefault(name.substring(name.lastIndexOf('_') + 1), 1);
  }

  private static OptionalLong date(String text) {
    try {
      if (text.indexOf('T') < 0) {
        return OptionalLong.of(
            LocalDate.parse(text).atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli());
      }
      boolean zoned = text.endsWith("Z") || text.matches(".*[-+][0-9]{2}:?[0-9]{2}");
      return OptionalLong.of(
          zoned
              ? OffsetDateTime.parse(text).toInstant().toEpochMilli()
              : LocalDateTime.parse(text).toInstant(ZoneOffset.UTC).toEpochMilli());
    } catch (DateTimeException | ArithmeticException e) {
      return OptionalLong.empty();
    }
  }
}
