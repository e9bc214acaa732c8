package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.firmware.Module;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.measure.Symbol;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Keeping;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What settings take of a flash is what is erased with them, for the linker keeps the program out
 * of all of that: else a program would fit the estimate and not the part.
 */
class SettingsSizeTest {
  private static final Path SAMPLE = Path.of("generated-samples/compost-heap/compost-heap.yaml");
  private static final CostTables TABLES = CostTables.packed();

  static Stream<Target> families() {
    Set<String> met = new HashSet<>();
    return Catalogue.load().targets().stream()
        .filter(target -> target.family().keeping().filter(Keeping::inFlash).isPresent())
        .filter(target -> met.add(target.family().name()));
  }

  @ParameterizedTest
  @MethodSource("families")
  void settings_takeAllThatIsErased(Target target) {
    Keeping keeping = target.family().keeping().orElseThrow();
    int page = Integer.parseInt(keeping.registers().get("page_bytes"));
    Plan plan = Plan.of(LoopReader.read(SAMPLE), target);
    Module settings = ((Plan.Possible) plan).firmware().module("settings").orElseThrow();
    CostTable table = Shelf.of(TABLES, target).orElseThrow().table(settings);
    int kept =
        table.row(settings.key()).orElseThrow().costs().stream()
            .map(CostRow.Cost::symbol)
            .filter(symbol -> symbol.kind() == Symbol.Kind.EEPROM)
            .mapToInt(Symbol::bytes)
            .sum();
    assertEquals(page, kept);
  }
}
