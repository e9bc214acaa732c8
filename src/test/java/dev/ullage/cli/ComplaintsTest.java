package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class ComplaintsTest {
  private static final RuntimeException BUG = new IllegalStateException("no such\u001b[2J table");

  private final StringWriter err = new StringWriter();

  private ExitCode complain() {
    return new Complaints(new PrintWriter(err)).ofBug(BUG);
  }

  @AfterEach
  void clear() {
    System.clearProperty(Complaints.TRACE);
  }

  @Test
  void bug_isOneLineAndHowToReportIt() {
    assertEquals(ExitCode.BUG, complain());
    assertEquals(
        "This is a mistake in ullage "
            + Version.text()
            + ", not in your input: java.lang.IllegalStateException: no such\\u001b[2J table\n"
            + "Please report it with the command and the loop file; `-Dullage.trace=true` after"
            + " `java` adds the stack trace.\n",
        err.toString());
  }

  @Test
  void trace_isThereForWhoAsks() {
    System.setProperty(Complaints.TRACE, "true");
    complain();
    assertTrue(err.toString().contains("\tat dev.ullage.cli.ComplaintsTest"), err.toString());
  }

  @Test
  void numbers_areTheDocumentedOnes() {
    assertEquals(0, ExitCode.GOOD.number());
    assertEquals(1, ExitCode.FINDINGS.number());
    assertEquals(2, ExitCode.WRONG_USE.number());
    assertEquals(3, ExitCode.BAD_INPUT.number());
    assertEquals(4, ExitCode.BUG.number());
  }
}
