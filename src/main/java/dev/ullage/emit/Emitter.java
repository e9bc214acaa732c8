package dev.ullage.emit;

import dev.ullage.firmware.Firmware;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Turns a plan into the whole folder: sources, hooks, checks, Makefile and README. */
public final class Emitter {
  private Emitter() {}

  /**
   * Everything that a plan becomes, in memory; the same plan gives the same bytes.
   *
   * @param budget what it will need, for the README and {@code ullage.json}
   */
  public static Emission emit(Firmware firmware, Budget budget, Origin.Versions versions) {
    List<EmittedFile> files = new ArrayList<>();
    files.add(file("README.md", "portable/README.md.ftl", Readme.model(firmware, budget)));
    List<EmittedFile> sources = Sources.of(firmware);
    files.add(file("Makefile", BuildRules.template(firmware), BuildRules.model(firmware, sources)));
    files.addAll(sources);
    files.addAll(HostCheck.of(firmware, sources));
    Origin origin =
        new Origin(firmware.loop().name(), firmware.target().name(), versions, budget.figures());
    return new Emission(files, origin);
  }

  private static EmittedFile file(String path, String template, Map<String, Object> model) {
    return new EmittedFile(path, Templates.render(template, model), EmittedFile.Policy.REPLACE);
  }
}
