package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** By hand, after the rules of GNU ld that {@link Shortening} and the linker scripts name. */
class LayoutTest {
  private static final List<Module> ONE = List.of(Tables.portable("m[]"));

  @Test
  void piecesOfWideAlignmentComeFirst_soLittleIsLost() {
    Layout.Effect effect = effect(Machine.CORTEX_M, "C main 6/4 0 a b", "C a 10/4 0", "C b 4/2 0");
    // a at 0, main at 12, b at 18, end at 22: 2 between, 2 behind.
    assertEquals(4, effect.flashLost());
    assertEquals(0, effect.ramLost());
  }

  @Test
  void firstValues_areLostTwice() {
    Layout.Effect effect = effect(Machine.CORTEX_M, "C main 4/4 0 d z", "D d 5/4 0", "Z z 6/2 0");
    assertEquals(3, effect.flashLost());
    assertEquals(3 + 2, effect.ramLost());
  }

  /** It has a place of its own before the first values, and both end on a whole word. */
  @Test
  void codeThatRunsFromRam_takesBothMemories() {
    Linking linking =
        linking(Machine.CORTEX_M, "C main 4/4 0 r@0 d", "X r 10/4 8 s@8", "x s 4/2 0", "D d 5/1 0");
    Layout.Effect effect = linking.layout().orElseThrow().effect(ONE, List.of());
    assertEquals(10 + 4 + 5, linking.kept().get(0).ram);
    assertEquals(4 + 10 + 4 + 5, linking.kept().get(0).flash);
    assertEquals(2 + 3, effect.flashLost());
    assertEquals(2 + 3, effect.ramLost());
    assertEquals(8, linking.stack());
  }

  @Test
  void bufferOfAnotherSize_movesWhatIsLost() {
    Linking linking = linking(Machine.RISCV, "C main 4/2 0 z y", "Z y 6/2 0", "Z z 8/4 0");
    Layout layout = linking.layout().orElseThrow();
    assertEquals(2, layout.effect(ONE, List.of()).ramLost());
    List<Buffer> buffers = List.of(new Buffer("z", "m", "z", 10));
    assertEquals(0, layout.effect(ONE, buffers).ramLost());
  }

  /** A call of 8 bytes becomes one of 2 up to 2046 bytes on, less 4 in reserve; else one of 4. */
  @Test
  void callBecomesAsShortAsItsDistanceAllows() {
    // Names sort before `startup.main`, so the goal lies before the call.
    assertEquals(6, saved(Machine.RISCV, "C main 8/2 0 a@0~0", "C a 2044/2 0"));
    assertEquals(4, saved(Machine.RISCV, "C main 8/2 0 a@0~0", "C a 2046/2 0"));
    assertEquals(6, saved(Machine.RISCV, "C main 2042/2 0 z@0~0", "C z 2/2 0"));
    assertEquals(4, saved(Machine.RISCV, "C main 2044/2 0 z@0~0", "C z 2/2 0"));
  }

  /** The goal has moved, the caller has not yet: seen from there, it is farther than it will be. */
  @Test
  void whatWasShortenedBefore_makesCallsBackSeemLonger() {
    String[] near = {"C main 8/2 0 a b@0~0", "C a 8/2 0 w~0", "C b 2040/2 0", "Z w 4/4 0"};
    String[] far = {"C main 8/2 0 a b@0~0", "C a 8/2 0 w~0", "C b 2042/2 0", "Z w 4/4 0"};
    assertEquals(4 + 6, saved(Machine.RISCV, near));
    assertEquals(4 + 4, saved(Machine.RISCV, far));
  }

  @Test
  void variableBeyondTheGlobalPointer_keepsItsAddress() {
    String main = "C main 20/2 0 near~0 far~8";
    assertEquals(8, saved(Machine.RISCV, main, "Z near 4/4 0", "Z far 900/4 0"));
    // 1024 bytes before the pointer and 2047 behind it, less the variable itself.
    assertEquals(4, saved(Machine.RISCV, main, "Z near 4/4 0", "Z far 3000/4 0"));
  }

  @Test
  void codeForEachOfACount_isShortenedAsOften() {
    Linking linking =
        linking(Machine.RISCV, "C main 16/2+12*ask 0 put@0~0*ask,0+ask", "C put 4/2 0");
    Layout layout = linking.layout().orElseThrow();
    for (int count : new int[] {1, 2, 5}) {
      Module module = Tables.module("m[]", Module.Scope.PORTABLE, Map.of("ask", count));
      assertEquals(6 * (count + 1), layout.effect(List.of(module), List.of()).saved()[0]);
    }
  }

  @Test
  void interruptOfCortexM_pushesItsFrame() {
    String[] program = {"C main 4/2 8", "C isr_pace 4/2 12"};
    assertEquals(8 + 36 + 12, linking(Machine.CORTEX_M, program).stack());
    assertEquals(8 + 12, linking(Machine.RISCV, program).stack());
  }

  private static int saved(Machine machine, String... fields) {
    return Arrays.stream(effect(machine, fields).saved()).sum();
  }

  private static Layout.Effect effect(Machine machine, String... fields) {
    return linking(machine, fields).layout().orElseThrow().effect(ONE, List.of());
  }

  private static Linking linking(Machine machine, String... fields) {
    CostRow row = CostRow.parse("m[]", String.join("\t", fields));
    return new Linking(List.of(row), Optional.empty(), 0, machine);
  }
}
