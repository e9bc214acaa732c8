package dev.ullage.target;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A part without a port: its limits are known, and nothing can be planned, estimated or emitted for
 * it.
 *
 * @param packageNames without pins
 */
public record ListedPart(
    String name,
    String title,
    ListedFamily family,
    OptionalInt flash,
    int ram,
    OptionalInt eeprom,
    Optional<BusPort.Kind> busKind,
    Optional<Rating> rating,
    List<String> packageNames,
    Map<String, String> sources)
    implements Part {

  public ListedPart {
    packageNames = List.copyOf(packageNames);
    sources = Map.copyOf(sources);
  }

  @Override
  public String core() {
    return family.core();
  }

  @Override
  public String familyName() {
    return family.name();
  }

  @Override
  public String familyTitle() {
    return family.title();
  }
}
