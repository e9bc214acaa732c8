package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.sizing.Verdict;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The survey for programs, spreadsheets and pages. */
final class SurveyTables {
  private SurveyTables() {}

  static String json(Survey survey) {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/survey/1");
          json.writeStringField("loop", survey.loop());
          json.writeArrayFieldStart("targets");
          for (Assessment row : survey.rows()) {
            json.writeStartObject();
            new AssessmentJson(json).write(row);
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }

  /** One column for each field of the JSON form; what is not known is empty. */
  static Table fields(Survey survey) {
    return new Table(
        Stream.of(
                "target",
                "family",
                "core",
                "grade",
                "verdict",
                "bus_driver",
                "limiting",
                "reason",
                "flash_capacity",
                "flash_low",
                "flash_likely",
                "flash_high",
                "flash_headroom",
                "ram_capacity",
                "ram_static",
                "ram_stack",
                "ram_headroom")
            .map(Table.Column::left)
            .toList(),
        survey.rows().stream().map(SurveyTables::fields).toList());
  }

  private static List<String> fields(Assessment row) {
    return List.of(
        row.target().name(),
        row.target().familyName(),
        row.target().core(),
        Style.word(row.grade()),
        Style.word(row.verdict().kind()),
        row.busDriver().orElse(""),
        row.verdict().limiting(),
        row.verdict().reason(),
        flash(row),
        number(row.estimate(), e -> e.flash().low()),
        number(row.estimate(), e -> e.flash().likely()),
        number(row.estimate(), e -> e.flash().high()),
        number(row.headroom(), Headroom::flash),
        String.valueOf(row.target().ram()),
        number(row.estimate(), Estimate::staticRam),
        number(row.estimate(), Estimate::stack),
        number(row.headroom(), Headroom::ram));
  }

  private static String flash(Assessment row) {
    OptionalInt capacity = row.target().flash();
    return capacity.isPresent() ? String.valueOf(capacity.getAsInt()) : "";
  }

  private static <T> String number(Optional<T> from, Function<T, Integer> figure) {
    return from.map(figure).map(String::valueOf).orElse("");
  }

  static String markdown(Survey survey) {
    Table table =
        new Table(
            List.of(
                left("verdict"),
                left("target"),
                right("flash, low to high"),
                right("of"),
                right("RAM, fixed + stack"),
                right("of"),
                right("flash left"),
                right("RAM left"),
                left("bus driver"),
                left("limiting"),
                left("grade"),
                left("reason")),
            survey.rows().stream().map(SurveyTables::cells).toList());
    return "# "
        + Markdown.text(survey.loop())
        + "\n\nBytes. "
        + Stream.of(Verdict.Kind.values())
            .map(kind -> survey.count(kind) + " " + Style.word(kind))
            .collect(Collectors.joining(", "))
        + ".\n\n"
        + Markdown.table(table)
        + survey.leftOutSentence().map(SurveyTables::paragraph).orElse("")
        + survey.besideSentence().map(SurveyTables::paragraph).orElse("");
  }

  private static String paragraph(String text) {
    return "\n" + Markdown.text(text) + "\n";
  }

  private static List<String> cells(Assessment row) {
    return List.of(
        Style.word(row.verdict().kind()),
        row.target().name(),
        row.estimate().map(e -> e.flash().low() + " to " + e.flash().high()).orElse(""),
        flash(row),
        row.estimate().map(e -> e.staticRam() + " + " + e.stack()).orElse(""),
        String.valueOf(row.target().ram()),
        number(row.headroom(), Headroom::flash),
        number(row.headroom(), Headroom::ram),
        row.busDriver().orElse(""),
        row.verdict().limiting(),
        Style.word(row.grade()),
        row.verdict().reason());
  }
}
