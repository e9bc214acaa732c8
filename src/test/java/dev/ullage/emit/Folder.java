package dev.ullage.emit;

import dev.ullage.emit.EmittedFile.Policy;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/** What tests do with an emitted folder, and the emissions that they put there. */
final class Folder {
  private Folder() {}

  /** Two plain files and one hook; every text names the version. */
  static Emission emission(String version, String... paths) {
    List<EmittedFile> files = new ArrayList<>();
    for (String path : paths) {
      Policy policy = path.startsWith("yours/") ? Policy.ONCE : Policy.REPLACE;
      files.add(new EmittedFile(path, path + " of " + version + "\n", policy));
    }
    return new Emission(files, ManifestTest.ORIGIN);
  }

  static void write(Path root, String path, String text) {
    try {
      Files.createDirectories(root.resolve(path).getParent());
      Files.writeString(root.resolve(path), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String read(Path root, String path) {
    try {
      return Files.readString(root.resolve(path));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Every file below a folder, hidden ones too, with its text; a folder ends in a slash. */
  static SortedMap<String, String> contents(Path root) {
    SortedMap<String, String> contents = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(root)) {
      for (Path path : paths.filter(path -> !path.equals(root)).toList()) {
        String name = root.relativize(path).toString();
        boolean folder = Files.isDirectory(path);
        contents.put(folder ? name + '/' : name, folder ? "" : Files.readString(path));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return contents;
  }

  /** What an emission leaves in an empty folder, folders not listed. */
  static SortedMap<String, String> files(Emission emission) {
    SortedMap<String, String> files = new TreeMap<>();
    emission.files().forEach(file -> files.put(file.path(), file.text()));
    files.put(Manifest.FILE, emission.manifest().toJson());
    return files;
  }

  static Map<String, String> filesIn(Path root) {
    SortedMap<String, String> contents = contents(root);
    contents.keySet().removeIf(name -> name.endsWith("/"));
    return contents;
  }

  static void delete(Path root) {
    try (Stream<Path> paths = Files.walk(root)) {
      for (Path path : paths.sorted((a, b) -> b.compareTo(a)).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
