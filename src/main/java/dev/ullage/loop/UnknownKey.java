package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Nearest;
import dev.ullage.input.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Says what was most likely meant by a key that there is not. The key that was meant counts as
 * found wrong too, unless it is there as well, so that it is not reported as missing.
 */
record UnknownKey(
    Findings findings, Shape.Group group, String path, Node.Mapping mapping, Node.Entry entry) {

  void report() {
    Node.Scalar key = entry.key();
    String full = inside(path, key.text());
    String expected = "a key of " + (path.isEmpty() ? "the loop file" : '`' + path + '`');
    Optional<String> cure = cure(key.text());
    if (cure.isEmpty()) {
      expected += ": " + String.join(", ", group.names());
    }
    findings.add(key.line(), key.column(), full, "not known", expected, cure);
  }

  private Optional<String> cure(String name) {
    if (Node.isNothing(entry.value()) && Numbers.whole(name).isPresent()) {
      return Optional.of("write a decimal point, not a comma");
    }
    int colon = name.indexOf(':');
    if (Node.isNothing(entry.value()) && colon > 0) {
      doubt(name.substring(0, colon));
      String spaced = name.substring(0, colon) + ": " + name.substring(colon + 1).strip();
      return Optional.of("put a space after the colon: `" + spaced + "`");
    }
    Optional<String> nearest = Nearest.to(name, group.names());
    if (nearest.isPresent()) {
      doubt(nearest.get());
      return Optional.of("did you mean `" + nearest.get() + "`?");
    }
    return homeCure(name);
  }

  private void doubt(String meant) {
    if (mapping.entries().stream().noneMatch(there -> there.key().text().equals(meant))) {
      findings.doubt(inside(path, meant));
    }
  }

  private Optional<String> homeCure(String name) {
    List<String> homes = new ArrayList<>();
    findHomes(Keys.FILE, "", name, homes);
    if (homes.isEmpty()) {
      return Optional.empty();
    }
    List<String> places = new ArrayList<>();
    for (String home : homes) {
      if (!(entry.value() instanceof Node.Mapping)) {
        findings.doubt(inside(home, name));
      }
      places.add(home.isEmpty() ? "at the top of the file" : "in `" + home + '`');
    }
    return Optional.of("`" + name + "` belongs " + String.join(" or ", places));
  }

  /** The groups that have a key of this name. */
  private static void findHomes(Shape.Group group, String path, String name, List<String> homes) {
    for (Key key : group.keys()) {
      if (key.name().equals(name)) {
        homes.add(path);
      }
      if (key.shape() instanceof Shape.Group inner) {
        findHomes(inner, inside(path, key.name()), name, homes);
      }
    }
  }

  private static String inside(String path, String name) {
    return path.isEmpty() ? name : path + '.' + name;
  }
}
