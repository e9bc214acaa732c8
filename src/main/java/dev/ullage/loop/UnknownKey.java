package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Nearest;
import dev.ullage.input.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Says what was most likely meant by a key that there is not. */
final class UnknownKey {
  private UnknownKey() {}

  static void report(Findings findings, Shape.Group group, String path, Node.Entry entry) {
    Node.Scalar key = entry.key();
    String full = path.isEmpty() ? key.text() : path + '.' + key.text();
    String expected = "a key of " + (path.isEmpty() ? "the loop file" : '`' + path + '`');
    Optional<String> cure = cure(group, path, entry);
    if (cure.isPresent()) {
      findings.add(key.line(), key.column(), full, "not known", expected, cure.get());
    } else {
      findings.add(
          key.line(),
          key.column(),
          full,
          "not known",
          expected + ": " + String.join(", ", group.names()));
    }
  }

  private static Optional<String> cure(Shape.Group group, String path, Node.Entry entry) {
    String name = entry.key().text();
    if (Node.isNothing(entry.value()) && name.indexOf(':') > 0) {
      int colon = name.indexOf(':');
      String spaced = name.substring(0, colon) + ": " + name.substring(colon + 1).strip();
      return Optional.of("put a space after the colon: `" + spaced + "`");
    }
    if (Node.isNothing(entry.value()) && Numbers.whole(name).isPresent()) {
      return Optional.of("write a decimal point, not a comma");
    }
    Optional<String> nearest = Nearest.to(name, group.names());
    if (nearest.isPresent()) {
      return nearest.map(known -> "did you mean `" + known + "`?");
    }
    List<String> homes = new ArrayList<>();
    findHomes(Keys.FILE, "", name, homes);
    return homes.isEmpty()
        ? Optional.empty()
        : Optional.of("`" + name + "` belongs " + String.join(" or ", homes));
  }

  /** The groups that have a key of this name. */
  private static void findHomes(Shape.Group group, String path, String name, List<String> homes) {
    for (Key key : group.keys()) {
      if (key.name().equals(name)) {
        homes.add(path.isEmpty() ? "at the top of the file" : "in `" + path + "`");
      }
      if (key.shape() instanceof Shape.Group inside) {
        findHomes(inside, path.isEmpty() ? key.name() : path + '.' + key.name(), name, homes);
      }
    }
  }
}
