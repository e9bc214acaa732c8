package dev.ullage.target;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.input.SourceText;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
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

  /** What families share: cores and recipes. */
  private static final String CORES = "cores.yaml";

  /** What {@link ImageWriter} wrote, where the build has packed it. */
  private static final String IMAGE = "image";

  private static final String FOLDER = "targets/";

  private final Map<String, Part> parts = new LinkedHashMap<>();

  private Catalogue(Stream<Part> parts) {
    parts.forEachOrdered(this::add);
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
    Commons commons = Commons.read(FOLDER + CORES, source.text(CORES));
    return new Catalogue(
        source
            .text(INDEX)
            .lines()
            .flatMap(
                file -> FamilyReader.read(FOLDER + file, source.text(file), commons).stream()));
  }

  /**
   * The catalogue in a folder.
   *
   * @throws InputException if a file of it is wrong or cannot be read
   */
  public static Catalogue load(Path folder) {
    return fromFiles(file -> fileText(folder.resolve(file)));
  }

  /** The part of that name, whatever its case. */
  public Optional<Part> part(String name) {
    return Optional.ofNullable(parts.get(name.toLowerCase(Locale.ROOT)));
  }

  /** The part of that name, whatever its case, if there is a port for it. */
  public Optional<Target> target(String name) {
    return part(name).filter(Target.class::isInstance).map(Target.class::cast);
  }

  public List<Part> parts() {
    return List.copyOf(parts.values());
  }

  /** The parts for which there is a port. */
  public List<Target> targets() {
    return targetStream().toList();
  }

  /** The families for which there is a port. */
  public List<Family> families() {
    return targetStream().map(Target::family).distinct().toList();
  }

  private Stream<Target> targetStream() {
    return parts.values().stream().filter(Target.class::isInstance).map(Target.class::cast);
  }

  private void add(Part part) {
    if (parts.put(part.name(), part) != null) {
      String file = FOLDER + part.familyName() + ".yaml";
      throw new InputException(
          new Finding(
              file,
              0,
              0,
              "targets." + part.name(),
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
    return SourceText.decode(file.toString(), SourceText.bytesOf(file));
  }

  /** Where the texts of the files come from. */
  private interface Source {
    String text(String file);
  }
}
