package dev.ullage.report;

import dev.ullage.loop.Loop;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A part that holds a loop as it is, and how near it is to another one.
 *
 * @param row what the loop comes to there
 * @param sameFamily shares the port, and mostly the pins
 * @param packages the packages that both are sold in, the friendliest first
 * @param rank how far down the other part's list of packages the first of them is
 */
record NearPart(Assessment row, boolean sameFamily, List<String> packages, int rank) {
  private static final Comparator<NearPart> NEAREST =
      Comparator.comparing((NearPart part) -> !part.sameFamily)
          .thenComparing(NearPart::rank)
          .thenComparing(NearPart::row, SurveyOrder.SIZE.order());

  /** Those that hold a loop with its margin: the same family, then package, then the smallest. */
  static List<NearPart> of(
      Loop loop, Target target, List<Target> catalogue, CostTables costs, int most) {
    return Survey.of(loop, catalogue, costs).rows().stream()
        .filter(row -> row.verdict().kind() == Verdict.Kind.FITS)
        .map(row -> of(row, target))
        .sorted(NEAREST)
        .limit(most)
        .toList();
  }

  private static NearPart of(Assessment row, Target target) {
    List<String> names = target.packageNames();
    List<String> others = row.target().packageNames();
    List<String> common = names.stream().filter(others::contains).toList();
    int rank = common.isEmpty() ? names.size() : names.indexOf(common.get(0));
    boolean sameFamily = row.target().familyName().equals(target.familyName());
    return new NearPart(row, sameFamily, common, rank);
  }

  /** The friendliest package that both are sold in. */
  Optional<String> samePackage() {
    return packages.stream().findFirst();
  }

  /** What it has in common, for people. */
  String nearness() {
    String family = sameFamily ? "family" : "";
    return samePackage()
        .map(name -> family.isEmpty() ? name : family + ", " + name)
        .orElse(family.isEmpty() ? "-" : family);
  }
}
