package dev.ullage.testing;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.support.descriptor.MethodSource;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.TestPlan;

/** Says at the end of a test run, a line for each reason, which checks were left out. */
public final class LeftOutListener implements TestExecutionListener {
  private final Map<String, Set<String>> checksByReason = new TreeMap<>();

  @Override
  public synchronized void executionFinished(TestIdentifier test, TestExecutionResult result) {
    if (result.getStatus() == TestExecutionResult.Status.ABORTED) {
      String reason = result.getThrowable().map(Throwable::getMessage).orElse("no reason given");
      reason = reason.replace("Assumption failed: ", "");
      checksByReason.computeIfAbsent(reason, r -> new TreeSet<>()).add(name(test));
    }
  }

  private static String name(TestIdentifier test) {
    return test.getSource()
        .filter(MethodSource.class::isInstance)
        .map(MethodSource.class::cast)
        .map(source -> source.getClassName().replaceAll(".*\\.", "") + "." + source.getMethodName())
        .orElse(test.getDisplayName());
  }

  @Override
  public synchronized void testPlanExecutionFinished(TestPlan plan) {
    checksByReason.forEach(
        (reason, checks) ->
            System.out.println("LEFT OUT (" + reason + "): " + String.join(", ", checks)));
  }
}
