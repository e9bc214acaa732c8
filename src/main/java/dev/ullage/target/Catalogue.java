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
import java.util.stream.Stream;

/** All parts that the tool knows, in a stable order: by file, then as the file has them. */
public final class Catalogue {
  /** Lists the files, one a line: the contents of a jar cannot be listed as a folder can. */
  private static final String INDEX = "index.txt";

  /** What {@link ImageWriter} wrote, where the build has packed it. */
  private static final String IMAGE = "image";

  private static final String FOLDER = "targets/";

  private final Map<String, Target> targets = new LinkedHashMap<>();

  private Catalogue(Stream<Target> targets) {
    targets.forEachOrdered(this::add);
  }

  /** The catalogue that comes with the tool. */
  public static Catalogue load() {
    return resource(IMAGE)
        .map(image -> new Catalogue(ImageReader.read(image).stream()))
        .orElseGet(Catalogue::fromFiles);
  }

  /** As above, from the files, even where the build has made an image of them. */
  static Catalogue fromFiles() {
    return fromFiles(Catalogue::resourceText);
  }

  private static Catalogue fromFiles(Source source) {
    return new Catalogue(
        source
            .text(INDEX)
            .lines()
            .flatMap(file -> FamilyReader.read(FOLDER + file, source.text(file)).stream()));
  }

  /**
   * The catalogue in a folder.
   *
   * @throws InputException if a file of it is wrong
   * @throws UncheckedIOException if it cannot be read
   */
  public static Catalogue load(Path folder) {
    return fromFiles(file -> fileText(folder.resolve(file)));
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

  private static Optional<byte[]> resource(String name) {
    try (InputStream stream = Catalogue.class.getResourceAsStream('/' + FOLDER + name)) {
      return stream == null ? Optional.empty() : Optional.of(stream.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String resourceText(String name) {
    byte[] bytes =
        resource(name)
            .orElseThrow(() -> new IllegalStateException("The catalogue lacks `" + name + "`."));
    return new String(bytes, StandardCharsets.UTF_8);
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
