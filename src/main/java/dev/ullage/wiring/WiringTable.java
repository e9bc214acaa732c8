package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Pin;
import dev.ullage.wiring.PinUse.Kind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What is to be soldered, a row for each name: the loop's pins, then supplies, grounds and what
 * else needs something, then what is left alone.
 *
 * @param packages a column of pin numbers for each pinout, with the names of the packages that have
 *     it; none where no package is known
 * @param free names of pins that are left for other things, by port and bit
 * @param padded packages with a pad below, which goes to ground
 */
public record WiringTable(
    List<String> packages, List<Row> rows, List<String> free, List<String> padded) {

  /**
   * One row.
   *
   * @param use of the pin with this name; its number is that of one package only
   * @param numbers in each of {@code packages}, {@code 4, 21} where it is there twice, {@code -}
   *     where it is not led out
   */
  public record Row(PinUse use, List<String> numbers) {
    public Row {
      numbers = List.copyOf(numbers);
    }
  }

  public WiringTable {
    packages = List.copyOf(packages);
    rows = List.copyOf(rows);
    free = List.copyOf(free);
    padded = List.copyOf(padded);
  }

  /** The table of a plan, over all packages of its part. */
  public static WiringTable of(Firmware firmware) {
    return of(firmware, PinMap.of(firmware));
  }

  /** The table of a plan, over some of the packages of its part. */
  public static WiringTable of(Firmware firmware, List<PinMap> maps) {
    Map<List<PinUse>, List<PinMap>> pinouts =
        maps.stream()
            .collect(Collectors.groupingBy(PinMap::leads, LinkedHashMap::new, Collectors.toList()));
    Map<String, PinUse> uses = uses(firmware, maps);
    List<Row> rows = new ArrayList<>();
    for (PinUse use : uses.values()) {
      if (use.kind() != Kind.FREE && use.kind() != Kind.NONE) {
        rows.add(
            new Row(
                use, pinouts.keySet().stream().map(pins -> numbers(use.name(), pins)).toList()));
      }
    }
    return new WiringTable(
        pinouts.values().stream().map(WiringTable::names).toList(),
        rows,
        free(uses.values()),
        maps.stream().filter(map -> map.pad().isPresent()).map(PinMap::pack).toList());
  }

  /** Each name once: the loop's in the order of the roles, the others by kind. */
  private static Map<String, PinUse> uses(Firmware firmware, List<PinMap> maps) {
    Map<String, PinUse> uses = new LinkedHashMap<>();
    Uses plan = new Uses(firmware, maps.isEmpty() ? List.of() : maps.get(0).names());
    for (Map.Entry<Role, Pin> pin : firmware.pins().entrySet()) {
      uses.put(pin.getValue().name(), plan.of("", pin.getValue().name()));
    }
    for (Kind kind : Kind.values()) {
      maps.stream()
          .flatMap(map -> map.leads().stream())
          .filter(pin -> pin.kind() == kind)
          .sorted(Comparator.comparing(pin -> !Terminals.isMainSupply(pin)))
          .forEach(pin -> uses.putIfAbsent(pin.name(), pin));
    }
    return uses;
  }

  private static String names(List<PinMap> maps) {
    return maps.stream().map(PinMap::pack).collect(Collectors.joining(", "));
  }

  private static String numbers(String name, List<PinUse> pins) {
    String numbers =
        pins.stream()
            .filter(pin -> pin.name().equals(name))
            .map(PinUse::number)
            .collect(Collectors.joining(", "));
    return numbers.isEmpty() ? "-" : numbers;
  }

  private static List<String> free(Collection<PinUse> uses) {
    return uses.stream()
        .filter(use -> use.kind() == Kind.FREE)
        .map(PinUse::name)
        .sorted(Comparator.comparing(WiringTable::port).thenComparing(WiringTable::bit))
        .toList();
  }

  private static String port(String pin) {
    return pin.replaceAll("\\d+$", "");
  }

  private static int bit(String pin) {
    return Integer.parseInt('0' + pin.substring(port(pin).length()));
  }
}
