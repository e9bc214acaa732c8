package dev.ullage.cli;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.report.Format;
import dev.ullage.report.Survey;
import dev.ullage.report.SurveyOrder;
import dev.ullage.report.SurveyPage;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.List;

/** Holds a loop against the whole catalogue. */
final class SurveyCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<Boolean> fitsOnly =
      Argument.flag("--fits", "Only parts that hold the loop: those that say fits or tight.");
  private final Argument<SurveyOrder> order =
      Argument.option(
          "--sort",
          "ORDER",
          SurveyOrder.class,
          "size",
          "size (default: those that fit first, the smallest first of all), name, flash or ram"
              + " (where most is left first).");
  private final Argument<Boolean> listed =
      Argument.flag(
          "--listed",
          "With the parts of which only the limits are known, for they have no port yet; JSON,"
              + " CSV and the page have them always.");
  private final FilterOptions filter = new FilterOptions();
  private final OutputOptions output = OutputOptions.withPage();

  SurveyCommand(Surroundings around, EarlyReading early) {
    super("survey", around);
    this.early = early;
    describe(
        "Hold a loop against every part of the catalogue.",
        "Holds a loop against every part of the catalogue and says for each whether it fits, how"
            + " much flash and RAM it takes, what is left, and what is short where it does not"
            + " fit. No compiler is needed. Ends with code 1 when no part holds it.",
        "ullage survey cold-store.yaml --fits --package DIP-8");
    take(file, fitsOnly, order, listed);
    filter.addTo(this);
    output.addTo(this);
  }

  @Override
  ExitCode run() {
    Loop loop = LoopReader.read(file.value());
    List<Part> parts = filter.apply(early.catalogue(), this);
    List<Part> asked =
        isWithListed() ? parts : parts.stream().filter(Target.class::isInstance).toList();
    Survey all =
        Survey.of(loop, asked, early.costs())
            .leavingOut(parts.size() - asked.size())
            .sorted(order.value());
    Survey shown = fitsOnly.value() ? all.only(Assessment::mayHold) : all;
    deliver(text(loop, shown), output.file());
    return all.rows().stream().anyMatch(Assessment::holds) ? ExitCode.GOOD : ExitCode.FINDINGS;
  }

  private String text(Loop loop, Survey survey) {
    return output.isPage()
        ? SurveyPage.of(loop, survey, early.costs()).html()
        : survey.text(output.format(), output.style(around));
  }

  private boolean isWithListed() {
    return listed.value()
        || output.isPage()
        || output.format() == Format.JSON
        || output.format() == Format.CSV;
  }
}
