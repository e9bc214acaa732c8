package dev.ullage.proof;

import dev.ullage.proof.LinkMap.Bytes;
import dev.ullage.sizing.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * One module of a program: what the linker says it brings, and what was estimated.
 *
 * @param module its name, or one of the two names below
 */
record Share(String module, Bytes linked, Bytes estimated) {
  /** What is there in every program: vectors, the code before and after {@code main}. */
  static final String START_UP = "start-up";

  private static final Set<String> OF_START_UP = Set.of(LinkMap.FILL, "boot.o", "start.o");

  /** What the compiler's library brings. */
  static final String HELPERS = "run-time helpers";

  /** Of all modules, whether only the linker has them, or only the estimate. */
  static List<Share> of(Estimate estimate, LinkMap map) {
    Map<String, Bytes> linked = new TreeMap<>();
    map.files().forEach((file, bytes) -> linked.merge(moduleOf(file), bytes, Bytes::plus));
    Map<String, Bytes> estimated = new TreeMap<>();
    for (Estimate.Part part : estimate.modules()) {
      linked.putIfAbsent(part.name(), Bytes.NONE);
      estimated.put(part.name(), new Bytes(part.flash(), part.ram()));
    }
    List<Share> shares = new ArrayList<>();
    linked.forEach(
        (module, bytes) ->
            shares.add(new Share(module, bytes, estimated.getOrDefault(module, Bytes.NONE))));
    return shares;
  }

  private static String moduleOf(String file) {
    if (file.startsWith("crt") || file.contains("(_exit.o)") || OF_START_UP.contains(file)) {
      return START_UP;
    }
    if (file.contains("(") || file.equals("linker stubs")) {
      return HELPERS;
    }
    return file.replace(".o", "");
  }

  /** Bytes of flash that the estimate is too high. */
  int flashError() {
    return estimated.flash() - linked.flash();
  }

  /** Bytes of RAM that the estimate is too high. */
  int ramError() {
    return estimated.ram() - linked.ram();
  }
}
