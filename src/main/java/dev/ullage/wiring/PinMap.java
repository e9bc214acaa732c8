package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Package;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;

/**
 * Every pin of one package of a planned part, in the order of its numbers.
 *
 * @param part as its maker writes it
 * @param pack the package's name
 * @param pins each once; a pad below comes last
 * @param missing roles whose pins this package does not lead out: the plan is made for the first
 *     package
 */
public record PinMap(String part, String pack, List<PinUse> pins, List<Role> missing) {
  /** Packages without leads have a pad below. */
  private static final Pattern WITH_PAD = Pattern.compile("\\w*(QFN|DFN|MLF)-\\d+");

  private static final String PAD = "pad";

  public PinMap {
    pins = List.copyOf(pins);
    missing = List.copyOf(missing);
  }

  /** A map for each package of the plan's part, the default first. */
  public static List<PinMap> of(Firmware firmware) {
    return firmware.target().packages().stream().map(pack -> of(firmware, pack)).toList();
  }

  /** The map of the package with this name, in upper or lower case. */
  public static Optional<PinMap> of(Firmware firmware, String pack) {
    return firmware.target().packages().stream()
        .filter(each -> each.name().equalsIgnoreCase(pack))
        .findFirst()
        .map(each -> of(firmware, each));
  }

  private static PinMap of(Firmware firmware, Package pack) {
    Uses uses = new Uses(firmware, pack.pins());
    List<PinUse> pins = new ArrayList<>();
    for (int i = 0; i < pack.pins().size(); i++) {
      pins.add(uses.of(pack.number(i), pack.pins().get(i)));
    }
    if (WITH_PAD.matcher(pack.name()).matches()) {
      pins.add(uses.of(PAD, pack.pins().contains("VDD") ? "VSS" : "GND"));
    }
    List<Role> missing =
        firmware.pins().entrySet().stream()
            .filter(pin -> !pack.pins().contains(pin.getValue().name()))
            .map(Map.Entry::getKey)
            .toList();
    return new PinMap(firmware.target().title(), pack.name(), pins, missing);
  }

  /** What the data sheet calls the pins. */
  List<String> names() {
    return pins.stream().map(PinUse::name).toList();
  }

  /** The same with what is known of some pins put more exactly. */
  PinMap with(UnaryOperator<PinUse> exact) {
    return new PinMap(part, pack, pins.stream().map(exact).toList(), missing);
  }

  /** The pins around the package, or below it in a grid: all but the pad. */
  public List<PinUse> leads() {
    return pins.stream().filter(pin -> !pin.number().equals(PAD)).toList();
  }

  /** The pad below, which every package without leads of the catalogue has on ground. */
  public Optional<PinUse> pad() {
    return pins.stream().filter(pin -> pin.number().equals(PAD)).findFirst();
  }
}
