package dev.ullage.audit;

import dev.ullage.measure.CallGraph;
import dev.ullage.measure.StackPath;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What gcc writes beside an object file when it is asked to: {@code .ci} files, who calls whom
 * ({@code -fcallgraph-info=su}), and {@code .su} files, what each function holds ({@code
 * -fstack-usage}). Names of static functions come with their file in front: {@code menu.c:draw}.
 */
final class CallFiles {
  private static final int MOST_CALLS = 100_000;
  private static final String INDIRECT = "__indirect_call";
  private static final Pattern NODE =
      Pattern.compile("^node: \\{ title: \"([^\"]*)\" label: \"([^\"]*)\"");
  private static final Pattern EDGE =
      Pattern.compile(
          "^edge: \\{ sourcename: \"([^\"]*)\" targetname: \"([^\"]*)\"(?: label: \"([^\"]*)\")?");
  private static final Pattern BYTES = Pattern.compile("([0-9]{1,9}) bytes \\(([a-z,]+)\\)");

  /** A call, and where in the source it stands. */
  private record Call(String to, String place) {}

  private final Map<String, Integer> frames = new LinkedHashMap<>();
  private final Map<String, String> changing = new HashMap<>();
  private final Map<String, Set<Call>> calls = new HashMap<>();
  private int count;
  private int deepestAlone = -1;
  private String deepestFunction = "";

  /** Reads one more {@code .ci} file. */
  void readCalls(TextFile file) {
    file.lines().forEach(line -> readCall(file, line));
  }

  private void readCall(TextFile file, String line) {
    Matcher node = NODE.matcher(line);
    if (node.find()) {
      addNode(node.group(1), node.group(2));
      return;
    }
    Matcher edge = EDGE.matcher(line);
    if (edge.find()) {
      if (++count > MOST_CALLS) {
        throw file.wrong(0, "longer", "those of a program with at most " + MOST_CALLS + " calls");
      }
      String place = edge.group(3) == null ? "" : edge.group(3);
      calls
          .computeIfAbsent(edge.group(1), any -> new LinkedHashSet<>())
          .add(new Call(edge.group(2), place));
    }
  }

  private void addNode(String title, String label) {
    Matcher bytes = BYTES.matcher(label);
    if (bytes.find()) {
      addFrame(title, Integer.parseInt(bytes.group(1)), bytes.group(2));
    }
  }

  /** Reads one more {@code .su} file: {@code menu.c:12:5:draw}, bytes and kind between tabs. */
  void readFrames(TextFile file) {
    int[] number = {0};
    file.lines()
        .forEach(
            line -> {
              number[0]++;
              String[] fields = line.split("\t");
              if (fields.length != 3 || !fields[1].matches("[0-9]{1,9}")) {
                throw file.wrong(
                    number[0], "something else", "a function, its bytes of stack and their kind");
              }
              addAlone(plain(fields[0]), Integer.parseInt(fields[1]));
            });
  }

  private void addFrame(String title, int bytes, String kind) {
    frames.merge(title, bytes, Math::max);
    if (kind.contains("dynamic") && !kind.contains("bounded")) {
      changing.put(title, title + " has a frame of changing size");
    }
  }

  private void addAlone(String function, int bytes) {
    if (bytes > deepestAlone) {
      deepestAlone = bytes;
      deepestFunction = function;
    }
  }

  /** The function that holds most by itself, in words; empty where that is not known. */
  Optional<String> deepestAlone() {
    return deepestAlone < 0
        ? Optional.empty()
        : Optional.of(
            "the deepest by itself is " + deepestFunction + " with " + deepestAlone + " B");
  }

  /** Whether there is anything to find a path in. */
  boolean isEmpty() {
    return frames.isEmpty();
  }

  /**
   * The stack of a program.
   *
   * @param handlers entered by an interrupt
   * @param interruptBytes what the hardware pushes when it enters one
   */
  Stack stack(Predicate<String> handlers, int interruptBytes) {
    if (!frames.containsKey("main")) {
      return Stack.unknown("no call-graph file has a main");
    }
    StackPath main = deepest(List.of("main"));
    List<String> entered =
        frames.keySet().stream().filter(name -> handlers.test(plain(name))).sorted().toList();
    StackPath interrupt =
        entered.isEmpty() ? new StackPath(0, List.of(), Optional.empty()) : deepest(entered);
    Optional<String> why = main.unbounded().or(interrupt::unbounded);
    if (why.isPresent()) {
      return Stack.unbounded(why.get());
    }
    List<StackPath.Step> path = new ArrayList<>(main.steps());
    if (!entered.isEmpty() && interruptBytes > 0) {
      path.add(new StackPath.Step("(interrupt)", interruptBytes));
    }
    path.addAll(interrupt.steps());
    int bytes = path.stream().mapToInt(StackPath.Step::bytes).sum();
    Set<String> unmeasured = unmeasured(entered);
    return unmeasured.isEmpty()
        ? Stack.bound(bytes, path)
        : new Stack(Stack.Kind.AT_LEAST, bytes, path, notMeasured(unmeasured));
  }

  private static String notMeasured(Set<String> names) {
    List<String> shown = names.stream().limit(3).toList();
    String more =
        names.size() > shown.size() ? " and " + (names.size() - shown.size()) + " more" : "";
    return "no call-graph file says what " + String.join(", ", shown) + more + " takes";
  }

  private StackPath deepest(List<String> roots) {
    CallGraph graph = new CallGraph(0);
    Map<String, Integer> numbers = new LinkedHashMap<>();
    for (String name : reached(roots)) {
      Optional<String> why = Optional.ofNullable(changing.get(name));
      numbers.put(name, graph.add(name, frames.getOrDefault(name, 0), why.or(() -> pointer(name))));
    }
    numbers.forEach(
        (name, number) -> {
          for (Call call : calls.getOrDefault(name, Set.of())) {
            graph.connect(number, numbers.get(call.to()), frames.getOrDefault(name, 0), true);
          }
        });
    return graph.deepest(roots.stream().mapToInt(numbers::get).toArray());
  }

  private Optional<String> pointer(String name) {
    return calls.getOrDefault(name, Set.of()).stream()
        .filter(call -> call.to().equals(INDIRECT))
        .map(call -> name + " calls through a pointer at " + call.place())
        .findFirst();
  }

  private Set<String> unmeasured(List<String> handlers) {
    List<String> roots = new ArrayList<>(handlers);
    roots.add("main");
    Set<String> names = new TreeSet<>(reached(roots));
    names.removeAll(frames.keySet());
    return names;
  }

  private Set<String> reached(Collection<String> roots) {
    Set<String> reached = new LinkedHashSet<>(roots);
    Deque<String> work = new ArrayDeque<>(roots);
    while (!work.isEmpty()) {
      for (Call call : calls.getOrDefault(work.remove(), Set.of())) {
        if (reached.add(call.to())) {
          work.add(call.to());
        }
      }
    }
    return reached;
  }

  private static String plain(String title) {
    return title.substring(title.lastIndexOf(':') + 1);
  }
}
