package dev.ullage.target;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** All parts that the tool knows, in a stable order: by file, then as the file has them. */
public final class Catalogue {
  /** Lists the files, one a line: the contents of a jar cannot be listed as a folder can. */
  private static final String INDEX = "index.txt";

  private static final String FOLDER = "targets/";

  private final Map<String, Target> targets = new LinkedHashMap<>();

  private Catalogue(Source source) {
    source
        .text(INDEX)
        .lines()
        .map(file -> FamilyReader.read(FOLDER + file, source.text(file)))
        .flatMap(List::stream)
        .forEachOrdered(this::add);
  }

  /** The catalogue that comes with the tool. */
  public static Catalogue load() {
    return new Catalogue(Catalogue::resource);
  }

  /**
   * The catalogue in a folder.
   *
   * @throws InputException if a file of it is wrong
   * @throws UncheckedIOException if it cannot be read
   */
  public static Catalogue load(Path folder) {
    return new Catalogue(file -> fileText(folder.resolve(file)));
  }

  /** The part of that name, whatever its case. */
  public Optional<Target> target(String name) {
    return Optional.ofNullable(targets.get(name.toLowerCase(Locale.ROOT)));
  }

  public List<Target> targets() {
    return List.copyOf(targets.values());
  }

  public List<Family> families() {
    return targets.values().stream().map(Target::family).distinct().toList();
  }

  private void add(Target target) {
    if (targets.put(target.name(), target) != null) {
      String file = FOLDER + target.family().name() + ".yaml";
      throw new InputException(
          new Finding(
              file,
              0,
              0,
              "targets." + target.name(),
              "in another file too",
              "in one file only",
              Optional.empty()));
    }
  }

  private static String resource(String name) {
    try (InputStream stream = Catalogue.class.getResourceAsStream('/' + FOLDER + name)) {
      if (stream == null) {
        throw new IllegalStateException("The catalogue lacks `" + name + "`.");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String fileText(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Where the texts of the files come from. */
  private interface Source {
    String text(String file);
  }
}
