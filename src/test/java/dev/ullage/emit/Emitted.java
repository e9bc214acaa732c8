package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.fail;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** A folder that firmware was emitted to, and {@code make} in it. */
public final class Emitted {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private static final Budget BUDGET =
      new Budget(
          "measured",
          new Origin.Figures(690, 702, 716, 12, 38),
          List.of(new Budget.Part("main", 40, 0), new Budget.Part("bus_bitbang", 130, 1)),
          List.of(new Budget.Step("main", 6), new Budget.Step("reading_take", 12)));

  private final Path folder;

  private Emitted(Path folder) {
    this.folder = folder;
  }

  public static Emitted to(Path folder, Loop loop, String target) {
    Plan plan = Plan.of(loop, CATALOGUE.target(target).orElseThrow());
    if (plan instanceof Plan.Possible possible) {
      return write(folder, possible.firmware());
    }
    return fail(plan.toString());
  }

  static Emitted to(Path folder, String yaml, String target) {
    return to(folder, LoopReader.read("loop.yaml", yaml), target);
  }

  /** A copy of a folder that was emitted before, to build in. */
  static Emitted copy(Path from, Path folder) {
    Folder.filesIn(from).forEach((path, text) -> Folder.write(folder, path, text));
    return new Emitted(folder);
  }

  /** On the first target that the loop can run on; empty if there is none. */
  public static Optional<Emitted> somewhere(Path folder, Loop loop) {
    for (Target target : CATALOGUE.targets()) {
      if (Plan.of(loop, target) instanceof Plan.Possible possible) {
        return Optional.of(write(folder, possible.firmware()));
      }
    }
    return Optional.empty();
  }

  static Emission emission(Firmware firmware) {
    return Emitter.emit(firmware, BUDGET, new Origin.Versions("0.1.0", "1"));
  }

  private static Emitted write(Path folder, Firmware firmware) {
    new FolderWriter().write(folder, emission(firmware));
    return new Emitted(folder);
  }

  public Path file(String path) {
    return folder.resolve(path);
  }

  String text(String path) {
    return Folder.read(folder, path);
  }

  /** Changes a file of the firmware; fails if there is nothing to change. */
  void change(String path, String from, String to) {
    String before = text(path);
    String after = before.replace(from, to);
    if (after.equals(before)) {
      fail("`" + from + "` is not in " + path);
    }
    Folder.write(folder, path, after);
  }

  /** What {@code make} printed; it has to succeed, without a warning. */
  public String make(String... goals) {
    return Tool.output(folder, command(goals));
  }

  Tool.Run tryMake(String... goals) {
    return Tool.run(folder, command(goals));
  }

  private static String[] command(String... goals) {
    String[] command = new String[goals.length + 2];
    command[0] = "make";
    command[1] = "EXTRA=-Werror";
    System.arraycopy(goals, 0, command, 2, goals.length);
    return command;
  }
}
