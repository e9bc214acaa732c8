package dev.ullage.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RecipeTest {
  private static final Map<String, Ratio> NUMBERS =
      Map.of("a", Ratio.of(7), "half", Ratio.of(new BigDecimal("0.5")));

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1 + 2 * 3            | 7",
        "(1 + 2) * 3          | 9",
        "10 - 2 - 3           | 5",
        "7 / 2 / 2            | 1.75",
        "-a + 1               | -6",
        "a * -half            | -3.5",
        "0x10 + a             | 23",
        "ceil(a / 2)          | 4",
        "floor(-half)         | -1",
        "ceil(-half)          | 0",
        "round(half)          | 1",
        "round(2.4999)        | 2",
        "min(3, a, 2)         | 2",
        "max(3, a, 2)         | 7",
        "a >= 7               | 1",
        "a < 7                | 0",
        "when(a = 7, 11, 22)  | 11",
        "when(a > 7, 11, 22)  | 22",
        "at_least(a, 4, 8, 16)| 8",
        "place(a, 4, 8, 16)   | 1",
        "at_least(99, 4, 8)   | 8",
        "place(99, 4, 8)      | 1",
        "ceil(4.7 * 10)       | 47"
      })
  void formula_isWorkedOutExactly(String formula, BigDecimal value) {
    assertEquals(Ratio.of(value), Formula.parse(formula).value(NUMBERS));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1 +       | the formula ends too early",
        "(1 + 2    | the formula ends too early",
        "1 2       | `2` was not expected",
        ")         | `)` was not expected",
        "1 ? 2     | `? 2` is no formula",
        "when(1, 2)| `when` does not take 2 inputs",
        "sin(1)    | there is no function `sin`"
      })
  void noFormula_isRefusedWithItsPlace(String text, String why) {
    IllegalArgumentException thrown =
        assertThrows(IllegalArgumentException.class, () -> Formula.parse(text));
    assertTrue(String.valueOf(thrown.getMessage()).startsWith(why), thrown.getMessage());
  }

  @Test
  void steps_useThoseBeforeThem_andCapitalsAreConstants() {
    Recipe.Outcome outcome =
        recipe("half", "a / 2", "DIVIDER", "ceil(half) - 1 in 0..255", "hz", "100 / (DIVIDER + 1)")
            .solve(NUMBERS);
    assertEquals(Map.of("DIVIDER", 3L), outcome.constants());
    assertEquals(25, outcome.real("hz"));
    assertEquals(Optional.empty(), outcome.tooFar());
  }

  @Test
  void constantThatItsRegisterCannotHold_isNamed() {
    Recipe recipe = recipe("DIVIDER", "a * 100 in 0..255", "hz", "1 / 0");
    assertEquals(Optional.of("DIVIDER"), recipe.solve(NUMBERS).tooFar());
  }

  @Test
  void mistakeInAStep_isFoundWhenAllAreRead() {
    Recipe recipe = recipe("hz", "1 +");
    IllegalArgumentException thrown = assertThrows(IllegalArgumentException.class, recipe::checked);
    assertEquals("hz: the formula ends too early", thrown.getMessage());
  }

  private static Recipe recipe(String... namesAndFormulas) {
    Map<String, String> texts = new LinkedHashMap<>();
    for (int i = 0; i < namesAndFormulas.length; i += 2) {
      texts.put(namesAndFormulas[i], namesAndFormulas[i + 1]);
    }
    return Recipe.of(texts);
  }
}
