package dev.ullage.replay;

import dev.ullage.firmware.Arithmetic;
import dev.ullage.loop.Loop;
import dev.ullage.replay.LoopMachine.Step;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * What the alarm does over a trace.
 *
 * @param knob code that the knob stood at; of no matter where the limit is fixed
 * @param steps one for each reading
 */
public record Replay(
    Loop loop,
    Arithmetic arithmetic,
    int knob,
    Set<Integer> presses,
    Trace trace,
    List<Step> steps) {

  public Replay {
    presses = Set.copyOf(presses);
    steps = List.copyOf(steps);
  }

  /**
   * Plays a trace.
   *
   * @param knob code of the knob's converter, 0 to 1023
   * @param presses readings, counted from 1, after which somebody presses the mute button
   * @throws dev.ullage.firmware.Whole.TooWide if 32 bits do not hold the loop's numbers
   */
  public static Replay of(Loop loop, Trace trace, int knob, Set<Integer> presses) {
    Arithmetic arithmetic = Arithmetic.of(loop);
    LoopMachine machine = new LoopMachine(loop, arithmetic, knob);
    List<Step> steps = new ArrayList<>(trace.readings().size());
    for (Reading reading : trace.readings()) {
      steps.add(machine.take(reading));
      if (presses.contains(steps.size())) {
        machine.pressMute();
      }
    }
    return new Replay(loop, arithmetic, knob, presses, trace, steps);
  }

  /** The same readings, under other settings of the alarm. */
  Replay with(Loop other) {
    return of(other, trace, knob, presses);
  }

  /** When the alarm goes on and off. */
  public List<Event> events() {
    List<Event> events = new ArrayList<>();
    boolean on = false;
    for (int i = 0; i < steps.size(); i++) {
      if (steps.get(i).alarm() != on) {
        on = !on;
        events.add(new Event(i + 1, trace.readings().get(i).timeMs(), on));
      }
    }
    return events;
  }

  /** Stretches of readings with the alarm on, each from the first to the last. */
  List<Stretch> alarms() {
    List<Stretch> alarms = new ArrayList<>();
    int began = 0;
    for (Event event : events()) {
      if (event.alarm()) {
        began = event.reading();
      } else {
        alarms.add(new Stretch(began, event.reading() - 1));
      }
    }
    if (!steps.isEmpty() && steps.get(steps.size() - 1).alarm()) {
      alarms.add(new Stretch(began, steps.size()));
    }
    return alarms;
  }

  /** Readings from the first to the last one, counted from 1. */
  record Stretch(int first, int last) {
    boolean touches(Stretch other) {
      return first <= other.last && other.first <= last;
    }
  }

  /** What was judged after a reading, in the unit; NaN where nothing was. */
  public double average(int index) {
    return steps.get(index).sum().isPresent()
        ? arithmetic.fold().toUnit(steps.get(index).sum().getAsLong())
        : Double.NaN;
  }

  /** What the alarm is compared with, in the unit. */
  public LimitLines limits() {
    return LimitLines.of(loop.alarm(), knob);
  }

  /** The figures of the whole. */
  public Summary summary() {
    return Summary.of(this);
  }
}
