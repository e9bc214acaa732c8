package dev.ullage;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/** What two folders differ in, byte for byte, for a person to read. */
final class FolderDiff {
  /** What `make` leaves in an emitted folder is no part of it. */
  private static final String BUILT = "build/";

  private FolderDiff() {}

  /** One entry for each file that is missing, extra or different; for that, its first such line. */
  static List<String> between(Path wanted, Path found) {
    SortedMap<String, String> right = files(wanted);
    SortedMap<String, String> left = files(found);
    List<String> differences = new ArrayList<>();
    TreeSet<String> paths = new TreeSet<>(right.keySet());
    paths.addAll(left.keySet());
    for (String path : paths) {
      if (!left.containsKey(path)) {
        differences.add("missing: " + path);
      } else if (!right.containsKey(path)) {
        differences.add("extra: " + path);
      } else if (!left.get(path).equals(right.get(path))) {
        differences.add("differs: " + path + ":" + firstLine(right.get(path), left.get(path)));
      }
    }
    return differences;
  }

  private static String firstLine(String wanted, String found) {
    String[] right = wanted.split("\n", -1);
    String[] left = found.split("\n", -1);
    int line = 0;
    while (line < right.length && line < left.length && right[line].equals(left[line])) {
      ++line;
    }
    return (line + 1) + "\n  wanted " + at(right, line) + "\n  found  " + at(left, line);
  }

  private static String at(String[] lines, int line) {
    return line < lines.length ? '`' + lines[line] + '`' : "the end";
  }

  /** Each byte as one character, so that nothing is lost. */
  private static SortedMap<String, String> files(Path root) {
    SortedMap<String, String> files = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(root)) {
      for (Path path : paths.filter(Files::isRegularFile).toList()) {
        String name = root.relativize(path).toString().replace('\\', '/');
        if (!name.startsWith(BUILT)) {
          files.put(name, Files.readString(path, StandardCharsets.ISO_8859_1));
        }
      }
      return files;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
