package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class CatalogueCheckTest {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private final Optional<CatalogueCheck> found = CatalogueCheck.fromPath();

  @BeforeEach
  void needsTheCompiler() {
    if (found.isEmpty() && "required".equals(System.getProperty("ullage.toolchains"))) {
      fail("No avr-gcc on the PATH, and toolchains are required.");
    }
    assumeTrue(found.isPresent(), "No avr-gcc on the PATH: the catalogue is not held against it.");
  }

  @Test
  void everyTarget_agreesWithItsHeaderAndSpecs() {
    List<Target> targets = CATALOGUE.targets();
    assertTrue(targets.size() > 60, "only " + targets.size() + " targets");
    List<Mismatch> mismatches = found.orElseThrow().check(targets);
    assertTrue(mismatches.isEmpty(), () -> lines(mismatches));
  }

  private static String lines(List<Mismatch> mismatches) {
    return mismatches.stream().map(Mismatch::toString).collect(Collectors.joining("\n", "\n", ""));
  }
}
