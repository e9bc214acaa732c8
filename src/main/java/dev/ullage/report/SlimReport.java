package dev.ullage.report;

import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.slim.Slimming;
import dev.ullage.target.Target;
import java.util.List;

/**
 * What can be done to make a loop fit a part.
 *
 * @param asItIs what the loop comes to unchanged
 * @param slimmed what it comes to with each of the sets
 * @param near parts that hold it unchanged, the nearest first; none are named where it fits
 */
public record SlimReport(
    Slimming slimming, Assessment asItIs, List<Assessment> slimmed, List<NearPart> near) {
  private static final int MOST_NEAR = 6;

  public SlimReport {
    slimmed = List.copyOf(slimmed);
    near = List.copyOf(near);
  }

  /** Adds to an answer what it comes to, and where the loop would fit as it is. */
  public static SlimReport of(Slimming slimming, List<Target> catalogue, CostTables costs) {
    Sizing sizing = new Sizing(costs);
    Target target = slimming.target();
    List<Assessment> slimmed =
        slimming.sets().stream().map(set -> Assessment.of(set.loop(), target, sizing)).toList();
    boolean fits = slimming.outcome() == Slimming.Outcome.FITS;
    List<NearPart> near =
        fits ? List.of() : NearPart.of(slimming.loop(), target, catalogue, costs, MOST_NEAR);
    return new SlimReport(slimming, Assessment.of(slimming.loop(), target, sizing), slimmed, near);
  }

  /** The report as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new SlimText(this, style).text();
      case JSON -> SlimJson.of(this);
      case CSV -> Csv.of(SlimTables.fields(this));
      case MD -> SlimTables.markdown(this);
    };
  }

  /** What it all means, in a sentence. */
  String answer() {
    int most = slimming.sets().size();
    return switch (slimming.outcome()) {
      case FITS -> "Nothing to change: it fits as it is.";
      case SLIMMED -> most == 1 ? "This makes it fit:" : "Each of these makes it fit:";
      case WITHOUT_MARGIN ->
          "Nothing leaves the margin free, but "
              + (most == 1 ? "this makes" : "each of these makes")
              + " it fit without:";
      case NOTHING -> nothing();
      case NOT_MEASURED -> "Only the limits of this part are known: nothing can be searched.";
    };
  }

  private String nothing() {
    String holds = asItIs.holds() ? " It can be built as it is, at the cost of the margin." : "";
    return slimming
        .nearest()
        .map(
            trial ->
                "Nothing helps: with every change that there is, "
                    + missing(trial.shortFlash(), trial.shortRam())
                    + " would still be missing."
                    + holds)
        .orElse("Nothing helps: no change of the loop gives the part what it lacks.");
  }

  private static String missing(int flash, int ram) {
    if (flash > 0 && ram > 0) {
      return flash + " B of flash and " + ram + " B of RAM";
    }
    return flash > 0 ? flash + " B of flash" : ram + " B of RAM";
  }

  /** How the sets were found. */
  String search() {
    String found =
        slimming.cheapest()
            ? "no cheaper set fits, and no change of a set can be left out"
            : "the search was given up, so there may be a cheaper set, but no change of this one"
                + " can be left out";
    return slimming.trials()
        + " loops were planned and estimated: "
        + found
        + ". A weight says what a set takes from you: 1 is what nobody notices, 15 a safeguard of"
        + " the readings.";
  }
}
