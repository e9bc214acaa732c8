package dev.ullage.target;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The file that tells the compiler driver how to build for a part. It decides the generated code,
 * whatever the device header says.
 */
final class DeviceSpecs {
  private static final Pattern CORE = Pattern.compile("\\*asm_arch:\\s*-mmcu=(\\S+)");
  private static final Pattern SMALL_STACK = Pattern.compile("(?m)^\\*self_spec:\\s.* -msp8");
  private static final Pattern DATA_START = Pattern.compile("-Tdata 0x80(\\p{XDigit}{4})");

  /** Where the linker puts data unless the file says otherwise. */
  private static final int DEFAULT_DATA_START = 0x60;

  private DeviceSpecs() {}

  static List<Mismatch> check(Path folder, Target target) {
    Path file = folder.resolve("specs-" + target.name());
    if (!Files.isRegularFile(file)) {
      return List.of(new Mismatch(target.name(), "device specs", "none", "there"));
    }
    return compare(target, text(file));
  }

  static List<Mismatch> compare(Target target, String specs) {
    Matcher core = CORE.matcher(specs);
    Matcher start = DATA_START.matcher(specs);
    int dataStart = start.find() ? Integer.parseInt(start.group(1), 16) : DEFAULT_DATA_START;
    int stackPointer = SMALL_STACK.matcher(specs).find() ? 8 : 16;
    List<Mismatch> all = new ArrayList<>();
    add(all, target, "core of the specs", core.find() ? core.group(1) : "none", target.core());
    add(all, target, "stack pointer bits of the specs", stackPointer, target.stackPointerBits());
    add(all, target, "data start of the specs", dataStart, target.ramStart());
    return all;
  }

  private static void add(
      List<Mismatch> all, Target target, String what, Object found, Object expected) {
    if (!found.equals(expected)) {
      all.add(new Mismatch(target.name(), what, found.toString(), expected.toString()));
    }
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
