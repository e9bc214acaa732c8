package dev.ullage.audit;

import dev.ullage.measure.Symbol.Kind;
import java.util.regex.Pattern;

/**
 * Bytes in a row that belong to one name.
 *
 * @param symbol the name; in parentheses where there is none, and what stands there instead
 * @param object the object file it came from, as {@link #objectName} writes it; empty where unknown
 * @param kind where its bytes go
 * @param bytes how many
 * @param shape a fingerprint of what is in it; empty for what starts at zero
 */
public record Piece(String symbol, String object, Kind kind, int bytes, String shape) {
  /** Module of what the compiler's own run-time library brings. */
  public static final String HELPERS = "run-time helpers";

  /** Module of vectors and of what runs before {@code main}. */
  public static final String START_UP = "start-up";

  /** Module of what came from nobody knows where. */
  public static final String UNKNOWN = "(not known)";

  private static final Pattern START_UP_OBJECT = Pattern.compile("g?crt[^/]*\\.o(bj)?");
  private static final Pattern COMPILER_LIBRARY =
      Pattern.compile("libgcc[^/]*\\.a|libclang_rt[^/]*\\.a|libsdcc\\.lib|libint\\.lib");

  /** Program memory that it takes. */
  public int flash() {
    return kind.inFlash() ? bytes : 0;
  }

  /** RAM that it takes. */
  public int ram() {
    return kind.inRam() ? bytes : 0;
  }

  /** Whether it came out of a library. */
  public boolean isLibrary() {
    return object.endsWith(")");
  }

  /** What the object file is called in a budget: {@code alarm} for {@code src/alarm.o}. */
  public String module() {
    if (object.isEmpty()) {
      return UNKNOWN;
    }
    if (isLibrary()) {
      String library = object.substring(0, object.indexOf('('));
      return COMPILER_LIBRARY.matcher(library).matches() ? HELPERS : library;
    }
    int slash = object.lastIndexOf('/');
    String name = object.substring(slash + 1);
    if (START_UP_OBJECT.matcher(name).matches()) {
      return START_UP;
    }
    String stem =
        name.replaceFirst("\\.(o|obj|rel|c|cpp|s|S)$", "").replaceFirst("\\.(c|cpp)$", "");
    return object.substring(0, slash + 1).matches("(.*/)?yours/") ? "yours/" + stem : stem;
  }

  /**
   * An object file's name without what differs from one machine to the next: of a library only the
   * library and its member are kept, of other absolute paths the last name.
   */
  static String objectName(String path) {
    int bracket = path.endsWith(")") ? path.indexOf('(') : -1;
    String file = bracket < 0 ? path : path.substring(0, bracket);
    String name = file.substring(file.lastIndexOf('/') + 1);
    if (bracket >= 0) {
      return name + path.substring(bracket);
    }
    return file.startsWith("/") || START_UP_OBJECT.matcher(name).matches() ? name : file;
  }
}
