package dev.ullage.report;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.sizing.CostTables;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Map;

/**
 * A survey as a page for a browser: one HTML file that needs no network. It sorts, filters,
 * searches and compares, shows each part byte by byte, and plots what other values of the loop
 * would come to.
 *
 * @param curves what-if figures of the targets among the rows
 */
public record SurveyPage(Loop loop, Survey survey, List<Curves> curves) {
  private static final HtmlPage PAGE =
      new HtmlPage(
          List.of("base.css", "parts.css", "detail.css", "plots.css", "narrow.css", "print.css"),
          List.of(
              "page.js",
              "bars.js",
              "parts.js",
              "filters.js",
              "detail.js",
              "compare.js",
              "plots.js",
              "start.js"));

  public SurveyPage {
    curves = List.copyOf(curves);
  }

  /** Adds what the loop would come to with other values, for the targets in the survey. */
  public static SurveyPage of(Loop loop, Survey survey, CostTables costs) {
    List<Target> targets =
        survey.rows().stream()
            .map(Assessment::target)
            .filter(Target.class::isInstance)
            .map(Target.class::cast)
            .toList();
    List<Curves> curves =
        WhatIf.of(loop).parallelStream().map(each -> Curves.of(each, targets, costs)).toList();
    return new SurveyPage(loop, survey, curves);
  }

  /** The whole file. */
  public String html() {
    return PAGE.render(
        "survey.html.ftlh",
        Map.of(
            "loop", loop.name(),
            "facts", LoopFacts.of(loop),
            "loopFile", LoopPrinter.print(loop),
            "measuredWith", survey.measuredWith(),
            "leftOut", survey.leftOutSentence().orElse(""),
            "beside", survey.besideSentence().orElse(""),
            "data", SurveyPageJson.of(this)));
  }
}
