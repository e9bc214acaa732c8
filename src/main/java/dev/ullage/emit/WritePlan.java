package dev.ullage.emit;

import dev.ullage.emit.EmittedFile.Policy;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Decides what to do with each file, before anything is changed. */
final class WritePlan {
  /** One change, good only while the file at {@code path} is still as it was {@code before}. */
  sealed interface Step {
    String path();

    Optional<String> before();

    record Put(String path, Optional<String> before, byte[] bytes) implements Step {}

    record Remove(String path, Optional<String> before) implements Step {}
  }

  private final FolderView view;
  private final Known known;
  private final List<Step> steps = new ArrayList<>();
  private final List<String> written = new ArrayList<>();
  private final List<String> unchanged = new ArrayList<>();
  private final List<String> created = new ArrayList<>();
  private final List<WriteResult.Kept> kept = new ArrayList<>();
  private final List<String> removed = new ArrayList<>();
  private final List<String> left = new ArrayList<>();

  private WritePlan(FolderView view, Known known) {
    this.view = view;
    this.known = known;
  }

  static WritePlan of(Emission emission, FolderView view, Known known) throws IOException {
    WritePlan plan = new WritePlan(view, known);
    for (EmittedFile file : emission.files()) {
      plan.decide(file);
    }
    Set<String> emitted =
        emission.files().stream().map(EmittedFile::path).collect(Collectors.toSet());
    for (String path : known.paths()) {
      if (!emitted.contains(path)) {
        plan.decideStale(path);
      }
    }
    return plan;
  }

  /** In the order in which they are to be done. */
  List<Step> steps() {
    return List.copyOf(steps);
  }

  WriteResult result() {
    return new WriteResult(written, unchanged, created, kept, removed, left);
  }

  private void decide(EmittedFile file) throws IOException {
    Optional<String> now = view.hash(file.path());
    if (file.policy() == Policy.ONCE) {
      (now.isEmpty() ? created : unchanged).add(file.path());
      if (now.isEmpty()) {
        put(file.path(), now, file);
      }
    } else if (now.isPresent() && now.get().equals(file.hash())) {
      unchanged.add(file.path());
    } else if (now.isEmpty() || known.isOurs(file.path(), now.get())) {
      written.add(file.path());
      put(file.path(), now, file);
    } else {
      kept.add(new WriteResult.Kept(file.path(), putBeside(file)));
    }
  }

  /** A {@code NAME.new} that the user has changed stays too: then it is {@code NAME.new.new}. */
  private String putBeside(EmittedFile file) throws IOException {
    String beside = file.path() + EmittedPath.NEW;
    Optional<String> now = view.hash(beside);
    while (now.isPresent() && !isNewText(file, now.get())) {
      beside += EmittedPath.NEW;
      now = view.hash(beside);
    }
    if (now.isEmpty() || !now.get().equals(file.hash())) {
      put(beside, now, file);
    }
    return beside;
  }

  private boolean isNewText(EmittedFile file, String hash) {
    return hash.equals(file.hash()) || known.isOurs(file.path(), hash);
  }

  private void decideStale(String path) throws IOException {
    Optional<String> now = view.hash(path);
    if (now.isPresent()) {
      boolean ours = known.isOurs(path, now.get());
      (ours ? removed : left).add(path);
      if (ours) {
        steps.add(new Step.Remove(path, now));
      }
    }
  }

  private void put(String path, Optional<String> before, EmittedFile file) {
    steps.add(new Step.Put(path, before, file.bytes()));
  }
}
