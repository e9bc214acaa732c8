package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.emit.Emitted;
import dev.ullage.firmware.Knob;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Loops;
import dev.ullage.proof.Ledger;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same loops and traces through the emitted C, built for this computer, and through the replay:
 * every event is the same.
 */
class HostAgreementTest {
  private static final long SEED = 81;
  private static final int LOOPS = Integer.getInteger("ullage.replays", 10);
  private static final int READINGS = 2_000;

  @TempDir private Path folder;

  @Test
  void randomLoopsAndTraces_haveTheSameEvents() throws IOException {
    Tool.require("cc", "make");
    Random random = new Random(SEED);
    int events = 0;
    int played = 0;
    for (Loop loop : Loops.random(SEED, LOOPS)) {
      Path place = Files.createTempDirectory(folder, "played");
      Optional<Emitted> emitted = Emitted.somewhere(place, loop);
      if (emitted.isPresent()) {
        events += play(loop, emitted.get(), random);
        played++;
      }
    }
    Ledger.row("replayed", "the host's build", played, played * READINGS, events, 0);
    assertTrue(played >= LOOPS / 2, "only " + played + " loops");
    assertTrue(events > 10 * played, "only " + events + " events");
  }

  private static int play(Loop loop, Emitted emitted, Random random) throws IOException {
    int knob = random.nextInt(Knob.TOP + 1);
    Optional<Double> turned = KnobOf.loop(loop, knob);
    List<Reading> readings = Traces.random(loop, turned.isPresent() ? knob : 0, random, READINGS);
    String text = Traces.csv(loop, readings);
    Files.writeString(emitted.file("trace.csv"), text);
    emitted.make("build/play");
    String limit = turned.map(value -> "LIMIT=" + value).orElse("LIMIT=");
    String played = emitted.make("-s", "play", "TRACE=trace.csv", limit);

    Trace trace = Trace.read("trace.csv", text, loop, TraceOptions.NONE);
    assertEquals(readings.size(), trace.readings().size());
    Replay replay = Replay.of(loop, trace, turned.isPresent() ? knob : 0, Set.of());
    List<Event> events = replay.events();
    assertEquals(
        played,
        events.stream()
            .map(e -> e.reading() + "," + e.timeMs() + "," + (e.alarm() ? 1 : 0) + "\n")
            .collect(Collectors.joining("", "reading,time_ms,alarm\n", "")),
        loop::toString);
    return events.size();
  }
}
