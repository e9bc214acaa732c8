package dev.ullage.proof;

import java.io.IOException;
import java.io.UncheckedIOException;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.TestPlan;

/** After the last test, with {@code -Dullage.figures=write}: publishes what was measured. */
public final class FiguresListener implements TestExecutionListener {
  private boolean failed;

  @Override
  public synchronized void executionFinished(TestIdentifier test, TestExecutionResult result) {
    failed |= result.getStatus() == TestExecutionResult.Status.FAILED;
  }

  @Override
  public synchronized void testPlanExecutionFinished(TestPlan plan) {
    if (System.getProperty("ullage.figures", "check").equals("write")) {
      System.out.println(failed ? "Figures not written, because a test failed." : written());
    }
  }

  private static String written() {
    try {
      return FiguresPage.write();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
