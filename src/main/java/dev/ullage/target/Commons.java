package dev.ullage.target;

import dev.ullage.formula.Recipe;
import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import dev.ullage.input.YamlTree;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What families share: the cores, and recipes that they refer to by name.
 *
 * @param cores by name
 * @param recipes by name
 */
record Commons(Map<String, Core> cores, Map<String, Recipe> recipes) {

  /**
   * Reads the file that has them.
   *
   * @throws dev.ullage.input.InputException with everything that is wrong with it
   */
  static Commons read(String file, String yaml) {
    Findings findings = new Findings(file);
    Node.Mapping root = PlainYaml.read(yaml).orElseGet(() -> YamlTree.read(yaml, findings));
    Commons commons = new Section("", root, findings).read(Commons::commons);
    findings.throwIfAny();
    return commons;
  }

  private static Commons commons(Section root) {
    Map<String, Recipe> recipes = root.named("recipes", (name, recipe) -> recipe.recipe());
    return new Commons(root.named("cores", (name, core) -> core(name, core, recipes)), recipes);
  }

  private static Core core(String name, Section core, Map<String, Recipe> recipes) {
    return new Core(
        name,
        core.text("tools"),
        core.text("needs"),
        words(core, "flags"),
        words(core, "link_flags"),
        words(core, "small_flags"),
        words(core, "libraries"),
        core.integer("return_address_bytes"),
        core.recipe("bit_bang", recipes),
        core.has("bit_serial")
            ? Optional.of(core.recipe("bit_serial", recipes))
            : Optional.empty());
  }

  private static List<String> words(Section core, String key) {
    return core.has(key) ? core.words(key, word -> word, "flags") : List.of();
  }
}
