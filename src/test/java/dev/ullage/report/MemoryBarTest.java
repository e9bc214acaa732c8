package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.report.MemoryBar.Piece;
import java.util.List;
import org.junit.jupiter.api.Test;

class MemoryBarTest {

  @Test
  void pieces_takeTheirShareOfTheWidth() {
    MemoryBar bar = new MemoryBar(64, List.of(new Piece('#', 16), new Piece('v', 24)));
    assertEquals("[####vvvvvv......]", bar.draw(18));
  }

  @Test
  void whatIsBeyondTheEnd_isMarked() {
    MemoryBar bar = new MemoryBar(64, List.of(new Piece('#', 64), new Piece('v', 16)));
    assertEquals("[################!!!!]", bar.draw(22));
  }
}
