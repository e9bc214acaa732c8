package dev.ullage.audit;

import dev.ullage.sizing.CoreScale;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What was built, held against everything that it can be held against.
 *
 * @param subject the folder or file that was asked about
 * @param loop name of the loop that the folder was emitted from
 * @param target the part; without one, only limits of the command line and of the map count
 * @param grade how the figures are known: measured, unless the part would get other code
 * @param capacity of the part, or as the linker was told
 * @param fit empty where the sizes of the memories are not known
 * @param exceeded what is above a limit, a sentence without a full stop for each
 * @param elsewhere other parts that would hold it; empty where there is no part to compare with
 * @param notes sentences that the user should know
 */
public record Audit(
    String subject,
    Optional<String> loop,
    Optional<Target> target,
    Grade grade,
    Measured measured,
    Capacity capacity,
    Limits limits,
    Optional<Fit> fit,
    Optional<Estimated> estimated,
    Optional<Growth> growth,
    List<String> exceeded,
    List<LibraryUse> libraries,
    List<Elsewhere> elsewhere,
    List<String> notes) {

  public Audit {
    exceeded = List.copyOf(exceeded);
    libraries = List.copyOf(libraries);
    elsewhere = List.copyOf(elsewhere);
    notes = List.copyOf(notes);
  }

  /**
   * What to hold a program against.
   *
   * @param builtFor the part that it was emitted for, where that is known
   * @param catalogue all parts, for those that would hold it too
   * @param baseline what was accepted before
   * @param lack what the loop needs and the part does not have
   * @param notes what is known before anything was measured
   */
  public record Question(
      String subject,
      Optional<String> loop,
      Optional<Target> target,
      Optional<Target> builtFor,
      List<Target> catalogue,
      CoreScale scale,
      Limits limits,
      Optional<Estimated> estimated,
      Optional<Baseline> baseline,
      Optional<Verdict> lack,
      List<String> notes) {

    /** The part that its code is for: as far as is known, the one that it is held against. */
    private Optional<Target> home() {
      return builtFor.or(() -> target);
    }
  }

  /** Holds what was measured against it all. */
  public static Audit of(Measured measured, Question question) {
    Optional<Target> target = question.target();
    Capacity capacity = target.map(Capacity::of).orElse(measured.capacity());
    Optional<Growth> growth = question.baseline().map(base -> Growth.between(base, measured));
    return new Audit(
        question.subject(),
        question.loop(),
        target,
        grade(measured, question),
        measured,
        capacity,
        question.limits(),
        fit(measured, capacity, question),
        question.estimated(),
        growth,
        question.limits().exceeded(measured, growth),
        LibraryUse.of(measured, question.baseline()),
        question
            .home()
            .filter(part -> isOfItsCore(measured, part))
            .map(
                part ->
                    Elsewhere.of(
                        measured,
                        part,
                        question.catalogue(),
                        question.scale(),
                        question.limits().margin()))
            .orElse(List.of()),
        notes(measured, question, growth));
  }

  private static Optional<Fit> fit(Measured measured, Capacity capacity, Question question) {
    if (capacity.flash().isEmpty() || capacity.ram().isEmpty()) {
      return Optional.empty();
    }
    Fit fit =
        Fit.of(
            measured,
            capacity.flash().getAsInt(),
            capacity.ram().getAsInt(),
            capacity.eeprom().orElse(Integer.MAX_VALUE),
            question.limits().margin());
    return Optional.of(question.lack().map(fit::because).orElse(fit));
  }

  private static Grade grade(Measured measured, Question question) {
    Optional<String> built = question.home().map(Target::codeClass);
    boolean same =
        question
            .target()
            .filter(
                part ->
                    !isOfItsCore(measured, part) || !built.equals(Optional.of(part.codeClass())))
            .isEmpty();
    return same ? Grade.MEASURED : Grade.MODELLED;
  }

  private static boolean isOfItsCore(Measured measured, Target part) {
    return measured.core().filter(core -> !part.toolchain().isOf(core)).isEmpty();
  }

  /** What its core may have to do with the figures. */
  private static Optional<String> coreNote(Measured measured, Question question) {
    if (question.target().isEmpty() || measured.core().isEmpty()) {
      return Optional.empty();
    }
    Target part = question.target().get();
    String core = measured.core().get();
    if (!isOfItsCore(measured, part)) {
      return Optional.of(
          "the program is built for %s, and %s is %s: build it for the part to be sure"
              .formatted(core, part.title(), part.core()));
    }
    return question.builtFor().isPresent() || core.equals(part.core())
        ? Optional.empty()
        : Optional.of(
            ("the program says that it is built for %s, not for which core: the figures hold if"
                    + " that is %s")
                .formatted(core, part.core()));
  }

  private static List<String> notes(Measured measured, Question question, Optional<Growth> growth) {
    List<String> notes = new ArrayList<>(question.notes());
    notes.addAll(measured.notes());
    coreNote(measured, question).ifPresent(notes::add);
    growth
        .map(Growth::otherCompiler)
        .filter(compiler -> !compiler.isEmpty())
        .ifPresent(
            compiler -> notes.add("the baseline was built with another compiler, " + compiler));
    if (!measured.heap().isEmpty()) {
      notes.add(
          "memory is handed out while the program runs ("
              + String.join(", ", measured.heap())
              + "): how much RAM that takes is not in these figures");
    }
    return notes;
  }

  /** Whether it fits, and no limit is exceeded. */
  public boolean holds() {
    boolean fits =
        fit.map(Fit::verdict)
            .map(Verdict::kind)
            .map(kind -> kind == Verdict.Kind.FITS || kind == Verdict.Kind.TIGHT)
            .orElse(true);
    return fits && exceeded.isEmpty();
  }
}
