package dev.ullage.sizing;

import dev.ullage.target.Core;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;

/** All cost tables there are; each file is read when it is first asked for. */
public final class CostTables {
  private static final String FOLDER = "/targets/costs/";

  /** All of them in one piece, where the build has made it. */
  private static final String IMAGE = "/targets/costs.image";

  /** Classes from the least to the most capable; near ones compile to nearly the same. */
  private static final List<String> CLASSES =
      List.of(
          "avr2", "avr25-sp8", "avr25", "avr3", "avr31", "avr35", "avr4", "avr5", "avr51", "avr6");

  private final Function<String, Optional<String>> files;
  private final Map<String, Optional<CostTable>> tables = new ConcurrentHashMap<>();

  /**
   * @param files from the name of a file to what is in it
   */
  CostTables(Function<String, Optional<String>> files) {
    this.files = files;
  }

  /** The tables that are packed with the program. */
  public static CostTables packed() {
    return resource(IMAGE)
        .map(bytes -> new CostTables(new CostImage(bytes)::file))
        .orElseGet(
            () ->
                new CostTables(
                    file ->
                        resource(FOLDER + file)
                            .map(bytes -> new String(bytes, StandardCharsets.ISO_8859_1))));
  }

  private static Optional<byte[]> resource(String path) {
    try (InputStream in = CostTables.class.getResourceAsStream(path)) {
      return in == null ? Optional.empty() : Optional.of(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Tables that are not packed, by the names of their files.
   *
   * @throws dev.ullage.input.InputException with the lines that are wrong
   */
  public static CostTables of(Map<String, String> texts) {
    Map<String, String> sound = new HashMap<>();
    texts.forEach((file, text) -> sound.put(file, CostCheck.checked(file, text)));
    return new CostTables(file -> Optional.ofNullable(sound.get(file)));
  }

  /** Compiler, version and flags behind the tables that were asked for so far. */
  public List<String> measuredWith() {
    return tables.values().stream()
        .flatMap(Optional::stream)
        .map(CostTable::measuredWith)
        .distinct()
        .sorted()
        .toList();
  }

  Optional<CostTable> portable(String codeClass) {
    return table(portableFile(codeClass));
  }

  Optional<CostTable> port(String family, String codeClass) {
    return table(portFile(family, codeClass));
  }

  Optional<CostTable> helpers(String codeClass) {
    return table(helperFile(codeClass));
  }

  Optional<CostTable> startUp(Core core) {
    return table(startUpFile(core));
  }

  /** The class itself where it has tables, or else the nearest that has. */
  Optional<String> nearestClass(String family, String codeClass) {
    if (isMeasured(family, codeClass)) {
      return Optional.of(codeClass);
    }
    int wanted = CLASSES.indexOf(codeClass);
    return CLASSES.stream()
        .filter(each -> wanted >= 0)
        .sorted(Comparator.comparingInt(each -> Math.abs(CLASSES.indexOf(each) - wanted)))
        .filter(each -> isMeasured(family, each))
        .findFirst();
  }

  private boolean isMeasured(String family, String codeClass) {
    return portable(codeClass).isPresent() && port(family, codeClass).isPresent();
  }

  static String portableFile(String codeClass) {
    return codeClass + ".tsv";
  }

  static String portFile(String family, String codeClass) {
    return family + '.' + codeClass + ".tsv";
  }

  static String helperFile(String codeClass) {
    return "helpers." + codeClass + ".tsv";
  }

  /** One for each compiler, for a table says what it was made with. */
  static String startUpFile(Core core) {
    return "start-up." + core.tools().substring(0, core.tools().length() - 1) + ".tsv";
  }

  private Optional<CostTable> table(String file) {
    return tables.computeIfAbsent(file, name -> files.apply(name).map(CostTable::new));
  }
}
