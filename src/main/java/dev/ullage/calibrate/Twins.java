package dev.ullage.calibrate;

import dev.ullage.firmware.Module;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Code classes that compile most portable modules to the same bytes: an 8-bit stack pointer matters
 * only to a function with a frame, the multiplication instruction only to one that multiplies, and
 * the width of a return address to none. Such modules are compiled for one class and written to the
 * tables of all. Estimates are held against the linker in every class, so a wrong twin is found.
 */
final class Twins {
  private static final Map<String, String> MEASURED_ON =
      Map.of(
          "avr25-sp8", "avr25",
          "avr4", "avr25",
          "avr35", "avr5",
          "avr51", "avr5",
          "avr6", "avr5");

  /** Modules with a frame, a multiplication or a division. */
  private static final Set<String> OF_EACH_CLASS = Set.of("report", "average");

  private Twins() {}

  /** The class that a module of this class is measured on: itself, or a twin. */
  static String measuredOn(Module module, String codeClass) {
    return sharesCode(module) ? MEASURED_ON.getOrDefault(codeClass, codeClass) : codeClass;
  }

  /** The classes whose tables take what was measured on this one. */
  static List<String> thatTake(Module module, String codeClass) {
    List<String> classes = new ArrayList<>(List.of(codeClass));
    if (sharesCode(module)) {
      MEASURED_ON.forEach(
          (twin, measured) -> {
            if (measured.equals(codeClass)) {
              classes.add(twin);
            }
          });
    }
    return classes;
  }

  private static boolean sharesCode(Module module) {
    return module.scope() == Module.Scope.PORTABLE && !OF_EACH_CLASS.contains(module.name());
  }
}
