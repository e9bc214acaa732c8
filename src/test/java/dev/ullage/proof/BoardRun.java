package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.measure.LinkedProgram;
import dev.ullage.proof.SimulatedBoard.Result;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;

/** Runs cases side by side, holds each against what is true of all, and sums up the stack. */
final class BoardRun {
  // Where the deepest path is exercised, the bound should be this near.
  private static final int CLOSE = 4;

  private final SimulatedBoard board;
  private final List<Integer> slack = Collections.synchronizedList(new ArrayList<>());

  BoardRun(SimulatedBoard board) {
    this.board = board;
  }

  /**
   * A test for each case: it fits, keeps the rules of the bus and its stack, and does as it should.
   */
  Stream<DynamicTest> tests(List<BoardCase> cases, BiConsumer<BoardCase, Seen> more) {
    ExecutorService workers =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    List<Future<Result>> results =
        cases.stream().map(each -> workers.submit(() -> run(each))).toList();
    workers.shutdown();
    List<DynamicTest> tests = new ArrayList<>();
    for (int i = 0; i < cases.size(); i++) {
      BoardCase each = cases.get(i);
      Future<Result> result = results.get(i);
      tests.add(DynamicTest.dynamicTest(each.toString(), () -> check(each, result(result), more)));
    }
    return tests.stream();
  }

  private Result run(BoardCase each) {
    return board.play(each.firmware(), each.instead(), each.trial().script());
  }

  private static Result result(Future<Result> future) throws InterruptedException {
    try {
      return future.get();
    } catch (ExecutionException e) {
      throw new AssertionError(e.getCause().getMessage(), e.getCause());
    }
  }

  private void check(BoardCase each, Result result, BiConsumer<BoardCase, Seen> more) {
    Seen seen = result.seen();
    int bound = result.linked().stack().bytes();
    slack.add(bound - seen.stack());
    Ledger.row(
        "simulated", each.sample(), each.part(), each.driver(), each.what(), seen.stack(), bound);
    assertAll(
        () -> assertFits(each.firmware().target(), result.linked()),
        () -> assertEquals(List.of(), BusRules.of(each.trial().loop().sensor()).broken(seen)),
        () -> assertTrue(seen.stack() <= bound, () -> "stack " + seen.stack() + " of " + bound),
        () -> more.accept(each, seen));
  }

  private static void assertFits(Target target, LinkedProgram linked) {
    assertTrue(linked.flashBytes() <= target.flashBytes(), () -> "flash " + linked.flashBytes());
    int ram = linked.staticRamBytes() + linked.stack().bytes();
    assertTrue(ram <= target.ramBytes(), () -> "RAM " + ram);
  }

  /** Prints how far the bound was above what was seen; the median must be close. */
  void sumUp(String what) {
    List<Integer> sorted = slack.stream().sorted().toList();
    if (sorted.isEmpty()) {
      return;
    }
    int median = sorted.get(sorted.size() / 2);
    System.out.printf(
        "stack in simulation, %s: %d cases, bound above what was seen by %d at the median, %d at"
            + " most%n",
        what, sorted.size(), median, sorted.get(sorted.size() - 1));
    assertTrue(median <= CLOSE, () -> "slack at the median: " + median);
  }
}
