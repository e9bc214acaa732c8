package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.measure.StackPath.Step;
import dev.ullage.measure.Symbol.Edge;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class CallGraphTest {

  @Test
  void deepestPath_isNotTheOneThatStartsDeepest() {
    StackPath path =
        deepest(
            code("main", 9, call("wide", 9), call("deep", 1)),
            code("wide", 3),
            code("deep", 4, call("deeper", 4)),
            code("deeper", 11));
    assertEquals(2 + 1 + 2 + 4 + 2 + 11, path.bytes());
    assertEquals(
        List.of(new Step("main", 3), new Step("deep", 6), new Step("deeper", 13)), path.steps());
  }

  @Test
  void tailCall_takesTheCallersPlace() {
    StackPath path =
        deepest(
            code("main", 5, tail("next", 0)), code("next", 7, tail("last", 1)), code("last", 3));
    assertEquals(2 + 7, path.bytes());
    assertEquals(List.of(new Step("main", 2), new Step("next", 7)), path.steps());
  }

  @Test
  void jumpsInACircle_areALoopAndNotRecursion() {
    StackPath path = deepest(code("main", 1, tail("other", 0)), code("other", 4, tail("main", 0)));
    assertEquals(Optional.empty(), path.unbounded());
    assertEquals(6, path.bytes());
  }

  @Test
  void recursionThroughAnother_isFoundOnTheLoop() {
    StackPath path =
        deepest(
            code("main", 1, call("ping", 1)),
            code("ping", 0, tail("pong", 0)),
            code("pong", 2, call("ping", 2), call("leaf", 0)),
            code("leaf", 3));
    String why = path.unbounded().orElse("bounded");
    assertEquals("calls itself", why.substring(why.indexOf(' ') + 1));
    assertEquals(List.of(), path.steps());
  }

  @Test
  void callOfSomethingMissing_hasNoBound() {
    StackPath path = deepest(code("main", 1, call("gone", 1)));
    assertEquals(Optional.of("main calls gone, which is not there"), path.unbounded());
  }

  @Test
  void reference_isNoCall() {
    StackPath path =
        deepest(code("main", 1, new Edge("other", 0, Edge.Type.REFERENCE)), code("other", 50));
    assertEquals(3, path.bytes());
  }

  private static StackPath deepest(Symbol... program) {
    CallGraph graph = CallGraph.of(List.of(program), 2);
    return graph.deepest(graph.find("main").getAsInt());
  }

  private static Symbol code(String name, int ownStack, Edge... edges) {
    return new Symbol(
        name, false, Symbol.Kind.CODE, 10, ownStack, List.of(edges), Optional.empty());
  }

  private static Edge call(String target, int depth) {
    return new Edge(target, depth, Edge.Type.CALL);
  }

  private static Edge tail(String target, int depth) {
    return new Edge(target, depth, Edge.Type.TAIL);
  }
}
