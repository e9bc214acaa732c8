package dev.ullage.benchmark;

import java.io.IOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Whole processes side by side: a survey of the whole catalogue, and a Java program that does
 * nothing. They take turns, so that whatever else the machine does hits all alike; medians count.
 * Wants {@code target/} as {@code mvn package} leaves it.
 */
final class StartBenchmark {
  private static final int WARM_UP_ROUNDS = 2;
  private static final int ROUNDS = 21;
  private static final double PROMISE = 3;

  private static final String JAVA =
      Path.of(System.getProperty("java.home"), "bin/java").toString();
  private static final String LOOP = "generated-samples/cold-store/cold-store.yaml";
  private static final String EMPTY = "an empty Java program";
  private static final String LAUNCHER = "target/ullage survey";
  private static final String PLAIN_JAR = "java -jar target/ullage.jar survey";

  private StartBenchmark() {}

  /** Prints the medians in milliseconds, and the ratios. */
  public static void main(String[] args) throws IOException, InterruptedException {
    Map<String, List<String>> commands = new LinkedHashMap<>();
    commands.put(EMPTY, List.of(JAVA, "-cp", "target/test-classes", Empty.class.getName()));
    commands.put(LAUNCHER, List.of("target/ullage", "survey", LOOP));
    commands.put(PLAIN_JAR, List.of(JAVA, "-jar", "target/ullage.jar", "survey", LOOP));
    Map<String, List<Double>> times = new LinkedHashMap<>();
    for (int round = 0; round < WARM_UP_ROUNDS + ROUNDS; round++) {
      for (Map.Entry<String, List<String>> command : commands.entrySet()) {
        double ms = run(command.getValue());
        if (round >= WARM_UP_ROUNDS) {
          times.computeIfAbsent(command.getKey(), any -> new ArrayList<>()).add(ms);
        }
      }
    }
    double empty = median(times.get(EMPTY));
    times.forEach((name, all) -> print(name, median(all), empty));
    double ratio = median(times.get(LAUNCHER)) / empty;
    String answer = ratio <= PROMISE ? "within" : "NOT within";
    System.out.printf("The launcher is %s %.0f times an empty program.%n", answer, PROMISE);
    if (!Files.exists(Path.of("target/ullage.jsa"))) {
      System.out.println("There was no class archive: this Java could not write one.");
    }
  }

  private static double run(List<String> command) throws IOException, InterruptedException {
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectOutput(Redirect.DISCARD)
            .redirectError(Redirect.DISCARD);
    long start = System.nanoTime();
    int code = builder.start().waitFor();
    double ms = (System.nanoTime() - start) / 1e6;
    if (code != 0) {
      throw new IllegalStateException("Ended with " + code + ": " + String.join(" ", command));
    }
    return ms;
  }

  private static double median(List<Double> times) {
    return times.stream().sorted().skip(times.size() / 2).findFirst().orElseThrow();
  }

  private static void print(String name, double ms, double empty) {
    System.out.printf("%-36s %6.0f ms  %4.1f x%n", name, ms, ms / empty);
  }
}
