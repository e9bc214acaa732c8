package dev.ullage.proof;

import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Scale;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * The average of a loop in its unit, from the meaning of the loop file and nothing else: every
 * sample is converted, and what is compared is a fraction.
 */
final class UnitAverage {
  private static final MathContext FINE = new MathContext(40);

  private final Average rule;
  private final Scale scale;
  private final Deque<Mean> window = new ArrayDeque<>();
  private final List<Mean> block = new ArrayList<>();
  private Optional<BigDecimal> smoothed = Optional.empty();

  UnitAverage(Loop loop) {
    this.rule = loop.average();
    this.scale = loop.sensor().scale();
  }

  /** A sum and what it is divided by, so that nothing is rounded. */
  record Mean(BigDecimal sum, int count) {
    int compareTo(BigDecimal limit) {
      return sum.compareTo(limit.multiply(BigDecimal.valueOf(count)));
    }

    BigDecimal value() {
      return sum.divide(BigDecimal.valueOf(count), FINE);
    }
  }

  /** Takes one frame in; the average, where there is a new one. */
  Optional<Mean> add(long... raw) {
    Mean frame = ofFrame(raw);
    return switch (rule.overTime()) {
      case NONE -> Optional.of(frame);
      case MOVING -> Optional.of(sum(slide(frame)));
      case MEDIAN -> Optional.of(middle(slide(frame)));
      case EXPONENTIAL -> Optional.of(smooth(frame.value()));
      case BLOCK -> ofBlock(frame);
    };
  }

  /** One frame reduced to one value; two frames with equal samples have equal values. */
  Mean ofFrame(long... raw) {
    List<BigDecimal> units =
        Arrays.stream(raw).mapToObj(each -> scale.toUnit(BigDecimal.valueOf(each))).toList();
    return switch (rule.frame()) {
      case MEAN -> new Mean(units.stream().reduce(BigDecimal.ZERO, BigDecimal::add), raw.length);
      case MAX -> new Mean(Collections.max(units), 1);
      case MIN -> new Mean(Collections.min(units), 1);
      case MEDIAN -> throw new IllegalArgumentException("the firmware does not do this");
      case SHARE_ABOVE -> share(units);
    };
  }

  private Mean share(List<BigDecimal> units) {
    BigDecimal level = rule.level().orElseThrow();
    long above = units.stream().filter(unit -> unit.compareTo(level) > 0).count();
    return new Mean(BigDecimal.valueOf(100 * above), units.size());
  }

  /** The last so many frames; the first stands for all that were before it. */
  private List<Mean> slide(Mean frame) {
    do {
      window.addLast(frame);
    } while (window.size() < rule.readings());
    if (window.size() > rule.readings()) {
      window.removeFirst();
    }
    return List.copyOf(window);
  }

  private static Mean sum(List<Mean> means) {
    BigDecimal sum = means.stream().map(Mean::sum).reduce(BigDecimal.ZERO, BigDecimal::add);
    return new Mean(sum, means.size() * means.get(0).count());
  }

  private static Mean middle(List<Mean> means) {
    return means.stream().sorted(Comparator.comparing(Mean::sum)).toList().get(means.size() / 2);
  }

  /** Moves by a part of the distance to the new value. */
  private Mean smooth(BigDecimal value) {
    BigDecimal old = smoothed.orElse(value);
    BigDecimal step = value.subtract(old).divide(BigDecimal.valueOf(rule.readings()), FINE);
    smoothed = Optional.of(old.add(step, FINE));
    return new Mean(smoothed.get(), 1);
  }

  private Optional<Mean> ofBlock(Mean frame) {
    block.add(frame);
    if (block.size() < rule.readings()) {
      return Optional.empty();
    }
    Mean mean = sum(block);
    block.clear();
    return Optional.of(mean);
  }
}
