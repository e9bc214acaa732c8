package dev.ullage.proof;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * What a simulated board saw; times in microseconds from the power-up.
 *
 * @param readings when the first transaction of each reading began, and of one more
 * @param stops when the last transaction of each reading ended
 * @param lamp when the lamp changed
 * @param relay when the relay changed
 * @param tones stretches of tone without a pause
 * @param serial characters on the serial line
 * @param resets when the part started afresh
 * @param violations of the bus's rules
 * @param leastNs the shortest time seen of each kind, by its name in UM10204; 0 for none
 * @param asked what was written to the sensor in each reading
 * @param waits from the end of what was written to the sensor to the START that it was read with
 * @param idleNaps, deepNaps how often the part went to sleep
 * @param stoppedMs how long its clock stood, where the board says so
 * @param stack the most bytes of stack in use
 */
record Seen(
    List<Long> readings,
    List<Long> stops,
    List<Edge> lamp,
    List<Edge> relay,
    List<Tone> tones,
    List<Character> serial,
    List<Long> resets,
    List<String> violations,
    Map<String, Long> leastNs,
    List<List<Integer>> asked,
    List<Long> waits,
    int idleNaps,
    int deepNaps,
    int stoppedMs,
    int stack) {

  /** The alarm is judged, and shown, within this time of the end of a reading. */
  private static final long JUDGED_US = 20_000;

  record Edge(long us, boolean on) {}

  /** From the first edge to the last. */
  record Tone(long begin, long end, int edges) {
    double hz() {
      return (edges - 1) * 1e6 / (2.0 * (end - begin));
    }

    double ms() {
      return (end - begin) / 1000.0;
    }
  }

  /** A character, and how long its bits were. */
  record Character(long us, char value, long bitNs) {}

  static Seen of(String output) {
    List<Long> readings = new ArrayList<>();
    List<Long> stops = new ArrayList<>();
    List<Edge> lamp = new ArrayList<>();
    List<Edge> relay = new ArrayList<>();
    List<Tone> tones = new ArrayList<>();
    List<Character> serial = new ArrayList<>();
    List<Long> resets = new ArrayList<>();
    List<String> violations = new ArrayList<>();
    Map<String, Long> least = new TreeMap<>();
    List<List<Integer>> asked = new ArrayList<>();
    List<Long> waits = new ArrayList<>();
    int[] figures = new int[4];
    for (String line : output.lines().toList()) {
      String[] words = line.split(" ");
      switch (words[0]) {
        case "reading", "next" -> readings.add(Long.valueOf(words[1]));
        case "stop" -> stops.add(Long.valueOf(words[1]));
        case "lamp" -> lamp.add(edge(words));
        case "relay" -> relay.add(edge(words));
        case "tone" -> tones.add(tone(words));
        case "serial" -> serial.add(character(words));
        case "reset" -> resets.add(Long.valueOf(words[1]));
        case "violation", "silent", "crashed" -> violations.add(line);
        case "least" -> least.put(words[1], Long.valueOf(words[2]));
        case "asked" ->
            asked.add(
                Arrays.stream(words).skip(1).map(word -> Integer.parseInt(word, 16)).toList());
        case "waited" -> waits.add(Long.valueOf(words[1]));
        case "naps" -> {
          figures[0] = Integer.parseInt(words[1]);
          figures[1] = Integer.parseInt(words[2]);
        }
        case "stopped" -> figures[3] = (int) (Long.parseLong(words[1]) / 1000);
        case "stack" -> figures[2] = Integer.parseInt(words[1]);
        default -> {}
      }
    }
    return new Seen(
        readings,
        stops,
        lamp,
        relay,
        tones,
        serial,
        resets,
        violations,
        least,
        asked,
        waits,
        figures[0],
        figures[1],
        figures[3],
        figures[2]);
  }

  private static Edge edge(String[] words) {
    return new Edge(Long.parseLong(words[1]), words[2].equals("1"));
  }

  private static Tone tone(String[] words) {
    return new Tone(Long.parseLong(words[1]), Long.parseLong(words[2]), Integer.parseInt(words[3]));
  }

  private static Character character(String[] words) {
    return new Character(
        Long.parseLong(words[1]), (char) Integer.parseInt(words[2]), Long.parseLong(words[3]));
  }

  /**
   * The alarm after each reading, by the relay, the lamp or the sounder: {@code #} on, or a dot.
   */
  String alarms() {
    List<Edge> shown = shown();
    StringBuilder alarms = new StringBuilder();
    for (int i = 0; i < stops.size() && i + 1 < readings.size(); i++) {
      long from = Math.min(stops.get(i) + JUDGED_US, readings.get(i + 1) - 1);
      alarms.append(isOn(shown, from, readings.get(i + 1)) ? '#' : '.');
    }
    return alarms.toString();
  }

  private List<Edge> shown() {
    if (!relay.isEmpty()) {
      return relay;
    }
    if (!lamp.isEmpty()) {
      return lamp;
    }
    List<Edge> sounds = new ArrayList<>();
    for (Tone tone : tones) {
      sounds.add(new Edge(tone.begin(), true));
      sounds.add(new Edge(tone.end(), false));
    }
    return sounds;
  }

  private static boolean isOn(List<Edge> edges, long from, long to) {
    boolean before = false;
    for (Edge edge : edges) {
      if (edge.us() < from) {
        before = edge.on();
      } else if (edge.us() < to && edge.on()) {
        return true;
      }
    }
    return before;
  }

  /** Times from a reading to the next. */
  List<Double> periodsMs() {
    return IntStream.range(1, readings.size())
        .mapToObj(i -> (readings.get(i) - readings.get(i - 1)) / 1000.0)
        .toList();
  }

  /** Times between changes of a blinking lamp, without the first and the last of an alarm. */
  List<Double> blinksMs(int wantedMs) {
    List<Double> gaps =
        IntStream.range(1, lamp.size())
            .mapToObj(i -> (lamp.get(i).us() - lamp.get(i - 1).us()) / 1000.0)
            .toList();
    double pause = 1.5 * wantedMs;
    return IntStream.range(1, gaps.size() - 1)
        .filter(i -> gaps.get(i - 1) < pause && gaps.get(i) < pause && gaps.get(i + 1) < pause)
        .mapToObj(gaps::get)
        .toList();
  }

  /** Beeps with a beep before and one after, in the same alarm. */
  List<Tone> beeps(int pauseMs) {
    return IntStream.range(1, tones.size() - 1)
        .filter(i -> pauseMs(i) < 1.5 * pauseMs && pauseMs(i + 1) < 1.5 * pauseMs)
        .mapToObj(tones::get)
        .toList();
  }

  /** From the end of the beep before to the beginning of this one. */
  private double pauseMs(int beep) {
    return (tones.get(beep).begin() - tones.get(beep - 1).end()) / 1000.0;
  }

  /** Lines of the serial report, without their ends. */
  List<String> report() {
    StringBuilder text = new StringBuilder();
    serial.forEach(each -> text.append(each.value()));
    return text.toString().lines().toList();
  }
}
