package dev.ullage.proof;

import java.util.List;
import java.util.Locale;
import java.util.stream.DoubleStream;

/** Many figures of one kind, the smallest first. */
record Distribution(List<Double> sorted) {

  static Distribution of(DoubleStream figures) {
    return new Distribution(figures.sorted().boxed().toList());
  }

  /** The least figure that this share of all is not above; 0 where there is none. */
  double at(double share) {
    int place = (int) Math.ceil(share * sorted.size()) - 1;
    return sorted.isEmpty() ? 0 : sorted.get(Math.max(0, place));
  }

  double median() {
    return at(0.5);
  }

  double worst() {
    return at(1);
  }

  /** With two decimals and a point, wherever this runs. */
  static String shown(double figure) {
    return String.format(Locale.ROOT, "%.2f", figure);
  }
}
