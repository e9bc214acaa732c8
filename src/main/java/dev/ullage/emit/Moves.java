package dev.ullage.emit;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Does the steps of a plan: from here on files of the emitted folder change. */
record Moves(FolderView view, Staging staging, Disk disk) {

  /**
   * Does all steps, then puts the new manifest in place.
   *
   * @throws InterruptedMoves if something fails on the way; the staging folder stays, and lets the
   *     next run know which texts are ours
   */
  void run(List<WritePlan.Step> steps) throws InterruptedMoves {
    try {
      for (int i = 0; i < steps.size(); i++) {
        run(steps.get(i), staging.text(i));
      }
      disk.move(staging.manifestFile(), view.root().resolve(Manifest.FILE));
      staging.discard();
    } catch (IOException e) {
      throw new InterruptedMoves(e);
    }
  }

  private void run(WritePlan.Step step, Path text) throws IOException {
    Path file = view.root().resolve(step.path());
    if (!view.hash(step.path()).equals(step.before())) {
      throw new FileSystemException(file.toString(), null, "changed at the same moment");
    }
    if (step instanceof WritePlan.Step.Put) {
      createFolder(file.getParent());
      disk.move(text, file);
    } else {
      disk.delete(file);
      deleteIfEmpty(file.getParent());
    }
  }

  private void createFolder(Path folder) throws IOException {
    if (!Files.isDirectory(folder, NOFOLLOW_LINKS)) {
      createFolder(folder.getParent());
      disk.createFolder(folder);
    }
  }

  private void deleteIfEmpty(Path folder) throws IOException {
    if (folder.equals(view.root())) {
      return;
    }
    boolean empty;
    try (Stream<Path> entries = Files.list(folder)) {
      empty = entries.findAny().isEmpty();
    }
    if (empty) {
      disk.delete(folder);
      deleteIfEmpty(folder.getParent());
    }
  }
}
