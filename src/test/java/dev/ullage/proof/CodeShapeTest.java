package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.proof.CodeShape.Function;
import java.util.List;
import org.junit.jupiter.api.Test;

class CodeShapeTest {
  private static final String CODE =
      """
      /* A comment { with braces */
      #define HIDE(value) \\
          (__extension__({ value; }))

      static const uint8_t ask[] = {1, 2};

      __attribute__((noinline)) static uint8_t clock_bit(uint8_t out)
      {
          if (out == '{') {
              while (out-- != 0) { /* } */
                  if (out > 7) {
                      puts("}");
                  }
              }
          }
          return 1;
      }

      ISR(TWI_vect)
      {
      }
      """;

  @Test
  void functions_areMeasuredWithoutCommentsTextsAndMacros() {
    CodeShape shape = CodeShape.of(CODE);

    assertEquals(
        List.of(new Function("clock_bit", 11, 3), new Function("ISR", 3, 0)), shape.functions());
    assertEquals(21, shape.lines());
    assertEquals(17, shape.codeLines());
  }
}
