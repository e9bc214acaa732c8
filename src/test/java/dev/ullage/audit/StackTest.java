package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bounds from call-graph files, and what is said where there is none. */
class StackTest {
  @TempDir private Path folder;

  private static String node(String name, int bytes) {
    return "node: { title: \""
        + name
        + "\" label: \""
        + name
        + "\\n"
        + bytes
        + " bytes (static)\" }\n";
  }

  private static String call(String from, String to) {
    return "edge: { sourcename: \"" + from + "\" targetname: \"" + to + "\" label: \"a.c:7:3\" }\n";
  }

  private static Stack stack(String text) {
    CallFiles calls = new CallFiles();
    calls.readCalls(new TextFile("a.ci", text));
    return calls.stack(Set.of("tick")::contains, 36);
  }

  @Test
  void deepestPath_hasTheInterruptOnTop() {
    Stack stack =
        stack(
            node("main", 8)
                + node("a", 24)
                + node("b", 40)
                + node("a.c:leaf", 16)
                + node("tick", 4)
                + call("main", "a")
                + call("main", "b")
                + call("a", "a.c:leaf")
                + call("tick", "a.c:leaf"));
    assertEquals(Stack.Kind.BOUND, stack.kind());
    assertEquals(8 + 40 + 36 + 4 + 16, stack.bytes());
    assertEquals(
        List.of("main", "b", "(interrupt)", "tick", "a.c:leaf"),
        stack.path().stream().map(step -> step.function()).toList());
  }

  @Test
  void recursion_isNamed() {
    Stack stack = stack(node("main", 8) + node("a", 4) + call("main", "a") + call("a", "a"));
    assertEquals(Stack.Kind.UNBOUNDED, stack.kind());
    assertEquals("a calls itself", stack.why());
  }

  @Test
  void callThroughAPointer_isNamedWithItsPlace() {
    Stack stack = stack(node("main", 8) + call("main", "__indirect_call"));
    assertEquals(Stack.Kind.UNBOUNDED, stack.kind());
    assertEquals("main calls through a pointer at a.c:7:3", stack.why());
  }

  @Test
  void frameOfChangingSize_hasNoBound() {
    Stack stack = stack(node("main", 8).replace("static", "dynamic"));
    assertEquals("main has a frame of changing size", stack.why());
    Stack bounded = stack(node("main", 8).replace("static", "dynamic,bounded"));
    assertEquals(Stack.Kind.BOUND, bounded.kind());
  }

  @Test
  void libraryFunction_makesItALowerBound() {
    Stack stack = stack(node("main", 8) + call("main", "memcpy"));
    assertEquals(Stack.Kind.AT_LEAST, stack.kind());
    assertEquals(8, stack.bytes());
    assertTrue(stack.why().contains("memcpy"), stack.why());
  }

  @Test
  void armProgram_isFollowedFromItsInstructions() throws IOException {
    BuiltProgram.ARM.require();
    String noDivision =
        BuiltProgram.SOURCE.replace("a / (first", "a + (first").replace("% 11", "& 7");
    Path program =
        BuiltProgram.ARM.build(
            folder, noDivision.replace("first % 9", "first & 7"), "-fstack-usage");
    Stack stack = Artefacts.read(program, Optional.empty()).stack();
    assertEquals(Stack.Kind.BOUND, stack.kind(), stack.why());
    assertEquals(
        List.of("main", "average", "weigh"),
        stack.path().stream().map(step -> step.function()).toList());
    int frames =
        dev.ullage.testing.Tool.output(folder, "cat", "main.su")
            .lines()
            .mapToInt(line -> Integer.parseInt(line.split("\t")[1]))
            .sum();
    assertEquals(frames, stack.bytes(), "all three functions are on the path");
  }

  @Test
  void framesAlone_areSaidToBeNotEnough() {
    CallFiles calls = new CallFiles();
    calls.readFrames(
        new TextFile("a.su", "a.c:9:5:main\t8\tstatic\na.c:2:3:average\t40\tstatic\n"));
    assertTrue(calls.isEmpty());
    assertEquals(Optional.of("the deepest by itself is average with 40 B"), calls.deepestAlone());
  }

  @Test
  void pointerInArmProgram_isNamedWithItsPlace() throws IOException {
    BuiltProgram.ARM.require();
    String source =
        BuiltProgram.SOURCE
            .replace("int main", "uint16_t (*volatile hook)(uint8_t);\nint main")
            .replace("+= average(", "+= hook(");
    Stack stack = Artefacts.read(BuiltProgram.ARM.build(folder, source), Optional.empty()).stack();
    assertEquals(Stack.Kind.UNBOUNDED, stack.kind());
    assertTrue(stack.why().startsWith("main calls a computed address at main+0x"), stack.why());
  }

  @Test
  void riscvProgram_isFollowedFromItsInstructions() throws IOException {
    BuiltProgram.RISCV.require();
    Path program = BuiltProgram.RISCV.build(folder, BuiltProgram.SOURCE, "-fstack-usage");
    Stack stack = Artefacts.read(program, Optional.empty()).stack();
    assertEquals(Stack.Kind.BOUND, stack.kind(), stack.why());
    assertTrue(stack.path().stream().anyMatch(step -> step.function().equals("weigh")));
  }

  @Test
  void avrProgram_isFollowedFromItsInstructions() throws IOException {
    BuiltProgram.AVR.require();
    Path program = BuiltProgram.AVR.build(folder, BuiltProgram.SOURCE);
    Stack stack = Artefacts.read(program, Optional.empty()).stack();
    assertEquals(Stack.Kind.BOUND, stack.kind(), stack.why());
    String recursive =
        BuiltProgram.SOURCE.replace(
            "return (uint16_t)(weigh(n)", "return (uint16_t)(n * average(n - 1)");
    Stack without =
        Artefacts.read(BuiltProgram.AVR.build(folder, recursive), Optional.empty()).stack();
    assertEquals("average calls itself", without.why());
  }

  /** A vector table says which functions are entered by an interrupt, whatever they are called. */
  @Test
  void armInterrupt_comesOnTopWithItsFrame() throws IOException {
    BuiltProgram.ARM.require();
    String source =
        BuiltProgram.SOURCE.replaceAll("[/%] [(]first [+]", "+ (first +").replace(" % 9", " & 7")
            + """
            int main(void);
            void tick(void) { window[1] += average(3); }
            __attribute__((section(".vectors"), used))
            void (*const vectors[])(void) = {0, (void (*)(void))main, tick};
            """;
    Path program = BuiltProgram.ARM.build(folder, source.replace(" % 11", " & 7"));
    Measured measured = Artefacts.read(program, Optional.empty());
    Stack stack = measured.stack();
    assertEquals(Stack.Kind.BOUND, stack.kind(), stack.why());
    List<String> path = stack.path().stream().map(step -> step.function()).toList();
    assertEquals(List.of("(interrupt)", "tick", "average", "weigh"), path.subList(3, 7));
    assertEquals(36, stack.path().get(3).bytes(), "eight words, and one to align them");
    assertEquals(12, measured.figures().vectors());
  }
}
