package dev.ullage.target;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Holds the catalogue against the toolchain: the device header of every target, as the preprocessor
 * sees it, and the device specs that tell the compiler how to build for it.
 *
 * <p>Nothing is compiled, and of the headers nothing is parsed: every fact becomes a condition, and
 * the preprocessor prints the numbers of those that do not hold. It runs once a target.
 */
public final class CatalogueCheck {
  private static final String COMPILER = "avr-gcc";
  private static final int PROCESSES = 2;

  /** What {@link Question#asPreprocessorLines} prints. */
  private static final Pattern ANSWER = Pattern.compile("(?m)^@(\\d+) (.*)$");

  private final Path compiler;

  /** Whether a target's header is one that this check can read. */
  public static boolean knows(Target target) {
    return target.toolchain().compiler().equals(COMPILER);
  }

  /** A check with the given compiler driver. */
  public CatalogueCheck(Path compiler) {
    this.compiler = compiler;
  }

  /** A check with the {@code avr-gcc} on the PATH; empty where there is none. */
  public static Optional<CatalogueCheck> fromPath() {
    return Stream.of(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator))
        .filter(folder -> !folder.isEmpty())
        .map(folder -> Path.of(folder, COMPILER))
        .filter(Files::isExecutable)
        .findFirst()
        .map(CatalogueCheck::new);
  }

  /**
   * Every difference, in the order of the targets; none is the good case.
   *
   * @throws UncheckedIOException if the compiler cannot be run
   */
  public List<Mismatch> check(List<Target> targets) {
    Path specs = Path.of(run("", "-print-file-name=device-specs").output().strip());
    ExecutorService pool = Executors.newFixedThreadPool(PROCESSES);
    try {
      List<CompletableFuture<List<Mismatch>>> running =
          targets.stream()
              .map(target -> CompletableFuture.supplyAsync(() -> check(target, specs), pool))
              .toList();
      return running.stream().flatMap(one -> one.join().stream()).toList();
    } finally {
      pool.shutdownNow();
    }
  }

  private List<Mismatch> check(Target target, Path specs) {
    List<Mismatch> all = new ArrayList<>(ask(target, Questions.about(target)));
    all.addAll(DeviceSpecs.check(specs, target));
    return all;
  }

  /** The questions to which the device header of a part says no. */
  List<Mismatch> ask(Target target, List<Question> questions) {
    StringBuilder source = new StringBuilder("#include <avr/io.h>\n");
    for (int number = 0; number < questions.size(); number++) {
      source.append(questions.get(number).asPreprocessorLines(number));
    }
    // As assembler, because there a register is a number that a condition can compare.
    Run run =
        run(source.toString(), "-mmcu=" + target.name(), "-E", "-P", "-xassembler-with-cpp", "-");
    if (run.exit() != 0) {
      String reason = run.output().lines().findFirst().orElse("no output");
      return List.of(new Mismatch(target.name(), "device header", reason, "one that can be read"));
    }
    return ANSWER
        .matcher(run.output())
        .results()
        .map(answer -> mismatch(target, questions, answer))
        .toList();
  }

  private static Mismatch mismatch(Target target, List<Question> questions, MatchResult answer) {
    Question question = questions.get(Integer.parseInt(answer.group(1)));
    return new Mismatch(target.name(), question.what(), answer.group(2), question.expected());
  }

  private Run run(String input, String... arguments) {
    List<String> command = new ArrayList<>(List.of(compiler.toString()));
    command.addAll(List.of(arguments));
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      try (OutputStream stdin = process.getOutputStream()) {
        stdin.write(input.getBytes(StandardCharsets.UTF_8));
      } catch (IOException endedBeforeItRead) {
        // What it printed says why.
      }
      String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Run(process.waitFor(), output);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The check was interrupted.", e);
    }
  }

  private record Run(int exit, String output) {}
}
