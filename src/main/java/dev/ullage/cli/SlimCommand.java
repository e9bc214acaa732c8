package dev.ullage.cli;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.ListedSlim;
import dev.ullage.report.SlimReport;
import dev.ullage.slim.Aspect;
import dev.ullage.slim.SlimSet;
import dev.ullage.slim.Slimmer;
import dev.ullage.slim.Slimming;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Finds what to change in a loop so that it fits one part. */
final class SlimCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<String> name =
      Argument.required(
          "-t --target", "TARGET", String.class, "Name of the part; `ullage targets` lists them.");
  private final Argument<List<String>> keep =
      Argument.several(
          "--keep",
          "ASPECT",
          "What must stay as it is, such as lamp; may be given again. " + all());
  private final Argument<Path> slimmed =
      Argument.option(
          "--write",
          "FILE",
          Path.class,
          "Write the slimmed loop to this file, which must not exist.");
  private final Argument<Integer> set =
      Argument.option(
          "--set", "N", Integer.class, "1", "Which set --write takes (default: 1, the cheapest).");
  private final Argument<Boolean> replace =
      Argument.flag("--replace", "Let --write replace a file that exists.");
  private final OutputOptions output = new OutputOptions();

  SlimCommand(Surroundings around, EarlyReading early) {
    super("slim", around);
    this.early = early;
    describe(
        "Find what to change in a loop so that it fits one part.",
        "Searches everything in the loop that can be had in another way for the set of changes"
            + " that makes it fit and takes least from you, says what each change saves and what"
            + " it costs, and names the parts that hold the loop as it is. The sensor, a fixed limit"
            + " and what a dead sensor does are never changed. Ends with code 1 when nothing"
            + " helps.",
        "ullage slim cold-store.yaml -t attiny13a --write slimmed.yaml");
    take(file, name, keep, slimmed, set, replace);
    output.addTo(this);
  }

  private static String all() {
    return "One of: " + String.join(", ", words()) + ".";
  }

  private static List<String> words() {
    return Stream.of(Aspect.values()).map(Aspect::word).toList();
  }

  @Override
  ExitCode run() {
    Part part = part(early.catalogue(), name.value());
    Loop loop = LoopReader.read(file.value());
    if (part instanceof Target target) {
      return slim(loop, target);
    }
    ListedSlim answer = new ListedSlim(loop, (ListedPart) part);
    deliver(answer.text(output.format(), output.style(around)), output.file());
    return ExitCode.FINDINGS;
  }

  private ExitCode slim(Loop loop, Target target) {
    slimmed.ifGiven().ifPresent(this::checkMayBeWritten);
    Slimming slimming = new Slimmer(target, early.costs(), kept()).slim(loop);
    slimmed.ifGiven().ifPresent(path -> write(slimming, path));
    SlimReport report = SlimReport.of(slimming, early.catalogue().targets(), early.costs());
    deliver(report.text(output.format(), output.style(around)), output.file());
    return slimming.isSolved() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }

  private Set<Aspect> kept() {
    Set<Aspect> kept = EnumSet.noneOf(Aspect.class);
    for (String word : keep.value()) {
      if (!words().contains(word.toLowerCase(Locale.ROOT))) {
        throw unknown("aspect", word, words());
      }
      kept.add(Aspect.valueOf(word.toUpperCase(Locale.ROOT)));
    }
    return kept;
  }

  private void checkMayBeWritten(Path path) {
    if (output.file().filter(path::equals).isPresent()) {
      throw wrongUse("`" + path + "` cannot be both the report and the loop file");
    }
    if (!replace.value() && Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
      throw wrongUse("`" + path + "` exists; add --replace to have it replaced");
    }
  }

  private void write(Slimming slimming, Path path) {
    if (slimming.sets().isEmpty()) {
      around.err().println("`" + path + "` is not written: there is nothing to change.");
      return;
    }
    if (set.value() < 1 || set.value() > slimming.sets().size()) {
      throw wrongUse(
          "There is no set " + set.value() + "; there are sets 1 to " + slimming.sets().size());
    }
    SlimSet chosen = slimming.sets().get(set.value() - 1);
    deliver(LoopPrinter.print(chosen.loop()), Optional.of(path));
    around.err().println("`" + path + "` has the loop with set " + set.value() + ".");
  }
}
