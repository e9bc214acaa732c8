package dev.ullage.slim;

import dev.ullage.loop.Board;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Outputs.Lamp;
import dev.ullage.loop.Outputs.Sounder;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Plainer outputs, and fewer. The last one stays, and so does a relay: what it switches is not a
 * warning but the work itself.
 */
final class OutputChanges {
  private static final int STEADY_LAMP = 2;
  private static final int NO_LAMP = 8;
  private static final int NO_PAUSE = 2;
  private static final int OWN_TONE = 5;
  private static final int NO_SOUNDER = 10;

  private OutputChanges() {}

  static List<Change> of(Loop loop) {
    List<Change> changes = new ArrayList<>();
    loop.outputs().lamp().ifPresent(lamp -> lamp(lamp, changes));
    loop.outputs().sounder().ifPresent(sounder -> sounder(sounder, changes));
    return changes;
  }

  private static void lamp(Lamp lamp, List<Change> changes) {
    String now = lamp.blinkMs() > 0 ? "blink_ms " + lamp.blinkMs() : "steady";
    if (lamp.blinkMs() > 0) {
      Lamp steady = new Lamp(0, lamp.active());
      changes.add(
          Change.of(
              Aspect.LAMP,
              "outputs.lamp",
              now,
              "steady",
              STEADY_LAMP,
              "the lamp is steady instead of blinking",
              l -> Optional.of(lit(l, Optional.of(steady)))));
    }
    changes.add(
        Change.of(
            Aspect.LAMP,
            "outputs.lamp",
            now,
            "none",
            NO_LAMP,
            "no lamp: the other outputs alone tell of the alarm",
            l -> ifAnyIsLeft(without(lit(l, Optional.empty()), Board.Role.LAMP))));
  }

  private static Loop lit(Loop loop, Optional<Lamp> lamp) {
    Outputs now = loop.outputs();
    return loop.with(new Outputs(lamp, now.sounder(), now.relay()));
  }

  private static void sounder(Sounder sounder, List<Change> changes) {
    boolean pauses = sounder.offMs() > 0;
    boolean tone = sounder.toneHz() > 0;
    String still = "the sounder sounds on without a pause";
    String own = "the board needs a sounder that makes its own tone";
    if (pauses) {
      add(changes, sounder, new Sounder(sounder.toneHz(), sounder.onMs(), 0), NO_PAUSE, still);
    }
    if (tone) {
      add(changes, sounder, new Sounder(0, sounder.onMs(), sounder.offMs()), OWN_TONE, own);
    }
    if (pauses && tone) {
      Sounder plain = new Sounder(0, sounder.onMs(), 0);
      add(changes, sounder, plain, NO_PAUSE + OWN_TONE, own + ", and it sounds on without a pause");
    }
    changes.add(
        Change.of(
            Aspect.SOUNDER,
            "outputs.sounder",
            words(sounder),
            "none",
            NO_SOUNDER,
            "no sound: the other outputs alone tell of the alarm",
            l -> ifAnyIsLeft(without(sounding(l, Optional.empty()), Board.Role.SOUNDER))));
  }

  private static void add(List<Change> changes, Sounder from, Sounder to, int weight, String loss) {
    changes.add(
        Change.of(
            Aspect.SOUNDER,
            "outputs.sounder",
            words(from),
            words(to),
            weight,
            loss,
            l -> Optional.of(sounding(l, Optional.of(to)))));
  }

  private static Loop sounding(Loop loop, Optional<Sounder> sounder) {
    Outputs now = loop.outputs();
    return loop.with(new Outputs(now.lamp(), sounder, now.relay()));
  }

  private static String words(Sounder sounder) {
    String tone = sounder.toneHz() > 0 ? "tone_hz " + sounder.toneHz() : "own tone";
    return sounder.offMs() > 0
        ? tone + ", " + sounder.onMs() + "/" + sounder.offMs() + " ms"
        : tone + ", no pause";
  }

  private static Optional<Loop> ifAnyIsLeft(Loop loop) {
    Outputs left = loop.outputs();
    boolean any = left.lamp().isPresent() || left.sounder().isPresent() || left.relay().isPresent();
    return any ? Optional.of(loop) : Optional.empty();
  }

  /** The loop without a name for a pin that nothing uses any more. */
  static Loop without(Loop loop, Board.Role role) {
    Board now = loop.board();
    if (!now.pins().containsKey(role)) {
      return loop;
    }
    Map<Board.Role, String> pins = new EnumMap<>(now.pins());
    pins.remove(role);
    return loop.with(now.with(now.clockHz(), pins));
  }
}
