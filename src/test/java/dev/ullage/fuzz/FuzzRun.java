package dev.ullage.fuzz;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Puts damaged files through all doors, in a process of its own with little memory. Prints what
 * ended otherwise than with an answer or with findings, or took too long, and leaves the file; then
 * for each door how many were taken and how many refused.
 *
 * <p>Arguments: what toolchains left (if not there, texts are read instead), a folder to work in,
 * one for files that failed, how many files, and the seed of the first.
 */
final class FuzzRun {
  /** On a processor, for one file. */
  private static final long MOST_MILLIS = 3_000;

  /** By the clock: a file that takes longer is stuck, on however slow a machine. */
  private static final long STUCK_MILLIS = 30_000;

  private static final int MOST_FAILURES = 20;

  private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
  private final Path failed;
  private final Map<String, long[]> counts = new TreeMap<>();
  private int failures;
  private volatile long started = System.currentTimeMillis();
  private volatile String current = "the start";

  private FuzzRun(Path failed) {
    this.failed = failed;
  }

  public static void main(String[] args) throws IOException {
    Path built = Path.of(args[0]);
    Path work = Files.createDirectories(Path.of(args[1]));
    List<Door> doors = Files.exists(built) ? Door.ofArtefacts(built, work) : Door.ofTexts(work);
    FuzzRun run = new FuzzRun(Files.createDirectories(Path.of(args[2])));
    run.watch(Thread.currentThread());
    long first = Long.parseLong(args[4]);
    for (int i = 0; i < Integer.parseInt(args[3]) && run.failures < MOST_FAILURES; i++) {
      run.read(doors.get(i % doors.size()), first + i);
    }
    run.counts.forEach(
        (door, count) ->
            System.out.printf(
                "%s: %d taken, %d refused, %d us each%n",
                door, count[0], count[1], count[2] / 1_000 / (count[0] + count[1])));
    System.exit(0);
  }

  private void read(Door door, long seed) throws IOException {
    List<byte[]> samples = door.samples();
    byte[] sample = samples.get(Math.floorMod(seed, samples.size()));
    byte[] other = samples.get(Math.floorMod(seed * 31 + 7, samples.size()));
    byte[] bytes = new Mutation(seed, door.words(), other).of(sample);
    current = door.name() + ", seed " + seed;
    started = System.currentTimeMillis();
    long before = threads.getCurrentThreadCpuTime();
    long[] count = counts.computeIfAbsent(door.name(), any -> new long[3]);
    try {
      door.reader().read(bytes);
      count[0]++;
    } catch (InputException wrong) {
      count[1]++;
      if (wrong.findings().isEmpty() || wrong.getMessage().isBlank()) {
        fail(bytes, new IllegalStateException("findings without a finding"));
      }
    } catch (Throwable failure) {
      fail(bytes, failure);
    }
    long nanos = threads.getCurrentThreadCpuTime() - before;
    count[2] += nanos;
    long millis = nanos / 1_000_000;
    if (millis > MOST_MILLIS) {
      fail(bytes, new IllegalStateException("took " + millis + " ms"));
    }
  }

  private void fail(byte[] bytes, Throwable failure) throws IOException {
    failures++;
    Path file = failed.resolve(current.replaceAll("[^A-Za-z0-9.]+", "-"));
    Files.write(file, bytes);
    System.out.println("FAILED " + current + ", kept as " + file + ": " + failure);
    StackTraceElement[] trace = failure.getStackTrace();
    for (int i = 0; i < Math.min(12, trace.length); i++) {
      System.out.println("    " + trace[i]);
    }
  }

  /** Ends the process when a file does not end. */
  private void watch(Thread reader) {
    Thread watch =
        new Thread(
            () -> {
              while (System.currentTimeMillis() - started < STUCK_MILLIS) {
                try {
                  Thread.sleep(200);
                } catch (InterruptedException e) {
                  return;
                }
              }
              System.out.println("FAILED " + current + ": stuck");
              for (StackTraceElement each : reader.getStackTrace()) {
                System.out.println("    " + each);
              }
              System.out.flush();
              Runtime.getRuntime().halt(1);
            });
    watch.setDaemon(true);
    watch.start();
  }
}
