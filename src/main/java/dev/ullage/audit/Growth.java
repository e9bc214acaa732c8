package dev.ullage.audit;

import dev.ullage.audit.Measured.Share;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * What changed since something was accepted. A name that went to another object file, or code that
 * got another name, is the same piece as before: only what it gained counts.
 *
 * @param flash, ram how much more is taken; negative where it is less
 * @param stack how much deeper; empty where there is no bound now or there was none then
 * @param changes the largest first; without what only moved or was renamed, if nothing was gained
 * @param otherCompiler what the baseline was built with, where that is not what is used now
 */
public record Growth(
    int flash, int ram, OptionalInt stack, List<Change> changes, String otherCompiler) {

  public Growth {
    changes = List.copyOf(changes);
  }

  /** How a piece changed. */
  public enum How {
    NEW,
    GONE,
    CHANGED,
    MOVED,
    RENAMED
  }

  /**
   * A piece that changed.
   *
   * @param piece as it is now, or was last
   * @param before what it was called, or where it was; empty where that is the same
   * @param flash, ram how much more it takes
   */
  public record Change(How how, Piece piece, String before, int flash, int ram) {}

  /** The way from what was accepted to what was measured. */
  public static Growth between(Baseline before, Measured now) {
    Matching matching = new Matching(before.pieces(), now.pieces());
    List<Change> changes = matching.changes();
    int flash = changes.stream().mapToInt(Change::flash).sum();
    int ram = changes.stream().mapToInt(Change::ram).sum();
    boolean deeper = before.stack().isPresent() && now.stack().isBound();
    String compiler = now.compiler().orElse("");
    return new Growth(
        flash,
        ram,
        deeper
            ? OptionalInt.of(now.stack().bytes() - before.stack().getAsInt())
            : OptionalInt.empty(),
        changes,
        before.compiler().equals(compiler) ? "" : before.compiler());
  }

  /** What each module gained, by name; those that gained nothing are left out. */
  public SortedMap<String, Share> modules() {
    return sums(change -> change.piece().module());
  }

  /** What each object file gained, by name. */
  public SortedMap<String, Share> objects() {
    return sums(
        change -> change.piece().object().isEmpty() ? Piece.UNKNOWN : change.piece().object());
  }

  private SortedMap<String, Share> sums(Function<Change, String> name) {
    SortedMap<String, Share> sums = new TreeMap<>();
    for (Change each : changes) {
      sums.merge(
          name.apply(each),
          new Share(each.flash(), each.ram()),
          (one, other) -> new Share(one.flash() + other.flash(), one.ram() + other.ram()));
    }
    sums.values().removeIf(share -> share.flash() == 0 && share.ram() == 0);
    return sums;
  }

  /** Finds for every piece of now what it was before. */
  private static final class Matching {
    private final List<Change> changes = new ArrayList<>();
    private final Set<Piece> gone = new LinkedHashSet<>();
    private final Set<Piece> come = new LinkedHashSet<>();

    Matching(List<Piece> before, List<Piece> now) {
      Map<Object, Piece> known = new HashMap<>();
      before.forEach(each -> known.put(key(each), each));
      for (Piece each : now) {
        Piece old = known.remove(key(each));
        if (old == null) {
          come.add(each);
        } else if (old.bytes() != each.bytes()) {
          add(How.CHANGED, old, each, "");
        }
      }
      before.stream().filter(each -> known.get(key(each)) == each).forEach(gone::add);
      pair(each -> List.of(each.symbol(), each.kind()), How.MOVED);
      pair(Matching::likeness, How.RENAMED);
      pair(each -> List.of(each.object(), each.kind(), each.bytes()), How.RENAMED);
    }

    private static Object key(Piece piece) {
      return List.of(piece.symbol(), piece.object(), piece.kind());
    }

    /** Equal for pieces with the same bytes in them, as far as can be told. */
    private static Object likeness(Piece piece) {
      return piece.shape().isEmpty() ? piece : List.of(piece.kind(), piece.bytes(), piece.shape());
    }

    /** Pairs what is gone with what has come, where the key is that of one piece on either side. */
    private void pair(Function<Piece, Object> key, How how) {
      Map<Object, List<Piece>> left = new HashMap<>();
      gone.forEach(each -> left.computeIfAbsent(key.apply(each), k -> new ArrayList<>()).add(each));
      Map<Object, Integer> coming = new HashMap<>();
      come.forEach(each -> coming.merge(key.apply(each), 1, Integer::sum));
      for (Piece each : List.copyOf(come)) {
        List<Piece> old = left.getOrDefault(key.apply(each), List.of());
        if (old.size() == 1 && coming.get(key.apply(each)) == 1) {
          add(how, old.get(0), each, how == How.MOVED ? old.get(0).object() : old.get(0).symbol());
          come.remove(each);
          gone.remove(old.get(0));
        }
      }
    }

    private void add(How how, Piece old, Piece now, String before) {
      changes.add(new Change(how, now, before, now.flash() - old.flash(), now.ram() - old.ram()));
    }

    List<Change> changes() {
      List<Change> all = new ArrayList<>(changes);
      come.forEach(each -> all.add(new Change(How.NEW, each, "", each.flash(), each.ram())));
      gone.forEach(each -> all.add(new Change(How.GONE, each, "", -each.flash(), -each.ram())));
      all.sort(
          Comparator.comparingInt((Change c) -> -Math.abs(c.flash()) - Math.abs(c.ram()))
              .thenComparing(Change::piece, Baseline.ORDER));
      return all;
    }
  }
}
