package dev.ullage.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * What a simulated board saw; times in microseconds from the reset.
 *
 * @param readings when each transaction began
 * @param lamp when the lamp changed
 * @param tones stretches of tone without a pause
 * @param violations of the bus's rules
 * @param leastNs the shortest time seen of each kind, by its name in UM10204; 0 for none
 * @param stack the most bytes of stack in use
 * @param end when the simulation ended
 */
record Seen(
    List<Long> readings,
    List<Edge> lamp,
    List<Tone> tones,
    List<String> violations,
    Map<String, Long> leastNs,
    int stack,
    long end) {

  // The alarm is judged within this time of the beginning of a reading.
  private static final long JUDGED_US = 50_000;
  private static final long LONG_PAUSE_US = 600_000;

  record Edge(long us, boolean lit) {}

  /** From the first edge to the last. */
  record Tone(long begin, long end, int edges) {
    double hz() {
      return (edges - 1) * 1e6 / (2.0 * (end - begin));
    }
  }

  static Seen of(String output) {
    List<Long> readings = new ArrayList<>();
    List<Edge> lamp = new ArrayList<>();
    List<Tone> tones = new ArrayList<>();
    List<String> violations = new ArrayList<>();
    Map<String, Long> least = new TreeMap<>();
    long[] stackAndEnd = new long[2];
    for (String line : output.lines().toList()) {
      String[] words = line.split(" ");
      switch (words[0]) {
        case "reading" -> readings.add(Long.valueOf(words[1]));
        case "lamp" -> lamp.add(new Edge(Long.parseLong(words[1]), words[2].equals("1")));
        case "tone" -> tones.add(tone(words));
        case "violation", "silent", "crashed" -> violations.add(line);
        case "least" -> least.put(words[1], Long.valueOf(words[2]));
        case "stack" -> stackAndEnd[0] = Long.parseLong(words[1]);
        case "ended" -> stackAndEnd[1] = Long.parseLong(words[1]);
        default -> {}
      }
    }
    return new Seen(readings, lamp, tones, violations, least, (int) stackAndEnd[0], stackAndEnd[1]);
  }

  private static Tone tone(String[] words) {
    return new Tone(Long.parseLong(words[1]), Long.parseLong(words[2]), Integer.parseInt(words[3]));
  }

  /** The alarm after each reading but the last: {@code #} for on, {@code .} for off. */
  String alarms() {
    StringBuilder alarms = new StringBuilder();
    for (int i = 0; i + 1 < readings.size(); i++) {
      alarms.append(isLit(readings.get(i) + JUDGED_US, readings.get(i + 1)) ? '#' : '.');
    }
    return alarms.toString();
  }

  private boolean isLit(long from, long to) {
    boolean litBefore = false;
    for (Edge edge : lamp) {
      if (edge.us() < from) {
        litBefore = edge.lit();
      } else if (edge.us() < to && edge.lit()) {
        return true;
      }
    }
    return litBefore;
  }

  /** Times from a reading to the next. */
  List<Double> periodsMs() {
    return IntStream.range(1, readings.size())
        .mapToObj(i -> (readings.get(i) - readings.get(i - 1)) / 1000.0)
        .toList();
  }

  /** Times between changes of the blinking lamp, without the first and the last of an alarm. */
  List<Double> blinksMs() {
    List<Double> blinks = new ArrayList<>();
    for (int i = 1; i + 2 < lamp.size(); i++) {
      boolean first = i == 1 || gap(i - 1) > LONG_PAUSE_US;
      boolean last = gap(i + 1) > LONG_PAUSE_US;
      if (!first && !last && gap(i) <= LONG_PAUSE_US && gap(i - 1) <= LONG_PAUSE_US) {
        blinks.add(gap(i) / 1000.0);
      }
    }
    return blinks;
  }

  /** From the edge before to this one. */
  private long gap(int edge) {
    return lamp.get(edge).us() - lamp.get(edge - 1).us();
  }
}
