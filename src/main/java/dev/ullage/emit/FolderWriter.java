package dev.ullage.emit;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Writes an emission into a folder, all or nothing, and never loses what the user wrote there.
 *
 * <p>Everything is decided and staged first. Then each file is moved into place in one step, {@code
 * ullage.json} last. Whenever a writer is stopped, each file is the old or the new one, whole, and
 * the next run completes the work.
 */
public final class FolderWriter {
  private final Disk disk;

  public FolderWriter() {
    this(new RealDisk());
  }

  FolderWriter(Disk disk) {
    this.disk = disk;
  }

  /**
   * Writes the emission.
   *
   * @param folder absent, empty, or emitted before; its parents are created too
   * @throws InputException if the folder is someone else's, something is in the way, or the disk
   *     refuses; nothing was changed then, unless the finding says that a run completes it
   */
  public WriteResult write(Path folder, Emission emission) {
    List<Path> created = new ArrayList<>();
    try {
      create(folder.toAbsolutePath(), created);
      return writeInto(folder, emission);
    } catch (IOException e) {
      remove(created);
      throw refused(folder, e);
    } catch (InputException e) {
      remove(created);
      throw e;
    }
  }

  @SuppressWarnings("try") // the lock is only held
  private WriteResult writeInto(Path folder, Emission emission) throws IOException {
    Path root = folder.toRealPath();
    FolderView view = new FolderView(root);
    requireOurs(folder, view);
    try (FolderLock lock = FolderLock.of(root, disk)) {
      List<Staging> interrupted = Staging.allIn(root, disk);
      WritePlan plan = WritePlan.of(emission, view, known(view, interrupted));
      requireWritable(root, plan);
      Staging staging = Staging.fill(root, plan.steps(), emission.manifest(), disk);
      new Moves(view, staging, disk).run(plan.steps());
      for (Staging old : interrupted) {
        old.discard();
      }
      return plan.result();
    }
  }

  private void requireOurs(Path folder, FolderView view) throws IOException {
    boolean ours = view.manifest().isPresent() || view.isEmpty();
    for (Staging staging : Staging.allIn(view.root(), disk)) {
      ours |= staging.manifest().isPresent();
    }
    if (!ours) {
      throw new InputException(
          new Finding(
              folder.toString(),
              0,
              0,
              "the folder",
              "one with other files",
              "absent, empty, or emitted before (with `" + Manifest.FILE + "` in it)",
              Optional.of("choose another folder")));
    }
  }

  private static Known known(FolderView view, List<Staging> interrupted) throws IOException {
    List<Manifest> manifests = new ArrayList<>();
    view.manifest().ifPresent(manifests::add);
    for (Staging staging : interrupted) {
      staging.manifest().ifPresent(manifests::add);
    }
    return new Known(manifests);
  }

  /** Found out before the first move, so that a folder below that is read-only changes nothing. */
  private static void requireWritable(Path root, WritePlan plan) throws IOException {
    for (WritePlan.Step step : plan.steps()) {
      Path parent = root.resolve(step.path()).getParent();
      if (Files.isDirectory(parent, NOFOLLOW_LINKS) && !Files.isWritable(parent)) {
        throw new AccessDeniedException(parent.toString());
      }
    }
  }

  private void create(Path folder, List<Path> created) throws IOException {
    if (Files.isDirectory(folder)) {
      return;
    }
    if (Files.exists(folder, NOFOLLOW_LINKS)) {
      throw new InputException(
          FolderView.finding(folder, "a file", "a folder", "choose another name"));
    }
    create(folder.getParent(), created);
    disk.createFolder(folder);
    created.add(0, folder);
  }

  /** Deletes folders that are still empty: those which this run made for nothing. */
  private void remove(List<Path> created) {
    try {
      for (Path folder : created) {
        disk.delete(folder);
      }
    } catch (IOException stillInUse) {
      // They hold something by now: then they have to stay.
    }
  }

  private static InputException refused(Path folder, IOException e) {
    boolean completes = e instanceof InterruptedMoves;
    Throwable cause = completes ? e.getCause() : e;
    String place = folder.toString();
    String reason = Optional.ofNullable(cause.getMessage()).orElse("refused");
    if (cause instanceof FileSystemException failure) {
      place = Optional.ofNullable(failure.getFile()).orElse(place);
      reason = Optional.ofNullable(failure.getReason()).orElse("refused");
    }
    if (cause instanceof AccessDeniedException) {
      reason = "read-only";
    }
    String cure =
        completes
            ? "nothing of yours was lost; run it again to complete it"
            : "nothing was written";
    return new InputException(
        FolderView.finding(Path.of(place), reason, "free to be written", cure));
  }
}
