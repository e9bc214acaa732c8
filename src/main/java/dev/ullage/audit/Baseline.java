package dev.ullage.audit;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.input.Printable;
import dev.ullage.measure.Symbol.Kind;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What was accepted: a text with a line for each name, sorted, and no sums, so that two branches
 * that change different things merge without a conflict.
 *
 * @param compiler in its own words; empty where it is not known
 * @param stack the bound; empty where there was none
 */
public record Baseline(String compiler, OptionalInt stack, List<Piece> pieces) {
  static final Comparator<Piece> ORDER =
      Comparator.comparing(Piece::object)
          .thenComparing(Piece::symbol)
          .thenComparing(piece -> piece.kind().name());

  private static final String TITLE = "# ullage baseline 1";
  private static final String MEANING =
      ": accepted sizes, as object, symbol, kind, bytes and shape;"
          + " `ullage audit --accept` writes this\n";
  private static final int FIELDS = 5;

  public Baseline {
    pieces = pieces.stream().sorted(ORDER).toList();
  }

  /** What was measured, accepted. */
  public static Baseline of(Measured measured) {
    OptionalInt stack =
        measured.stack().isBound() ? OptionalInt.of(measured.stack().bytes()) : OptionalInt.empty();
    return new Baseline(measured.compiler().orElse(""), stack, measured.pieces());
  }

  /** The text of the file. */
  public String text() {
    StringBuilder text = new StringBuilder(TITLE + MEANING);
    text.append("compiler\t").append(safe(compiler)).append('\n');
    stack.ifPresent(bytes -> text.append("stack\t").append(bytes).append('\n'));
    for (Piece each : pieces) {
      text.append(safe(each.object())).append('\t').append(safe(each.symbol())).append('\t');
      text.append(word(each.kind())).append('\t').append(each.bytes()).append('\t');
      text.append(each.shape().isEmpty() ? "-" : each.shape()).append('\n');
    }
    return text.toString();
  }

  /** Names come from a file that anybody may have made. */
  private static String safe(String name) {
    return Printable.of(name);
  }

  private static String word(Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  /**
   * @throws InputException with every line that is wrong
   */
  public static Baseline read(Path file) {
    return read(TextFile.read(file));
  }

  static Baseline read(TextFile file) {
    return new Reader(file).read();
  }

  /** Reads the lines and collects what is wrong with them. */
  private static final class Reader {
    private static final int MOST_FINDINGS = 20;

    private final TextFile file;
    private final List<Finding> findings = new ArrayList<>();
    private final List<Piece> pieces = new ArrayList<>();
    private final Map<List<Object>, Integer> lines = new HashMap<>();
    private String compiler = "";
    private OptionalInt stack = OptionalInt.empty();
    private int number;

    Reader(TextFile file) {
      this.file = file;
    }

    Baseline read() {
      if (file.lines().findFirst().filter(line -> line.startsWith(TITLE + ':')).isEmpty()) {
        throw file.wrong(1, "something else", "a baseline that begins with `" + TITLE + ":`");
      }
      file.lines().forEach(this::readLine);
      if (!findings.isEmpty()) {
        throw new InputException(findings);
      }
      return new Baseline(compiler, stack, pieces);
    }

    private void readLine(String line) {
      number++;
      if (line.isBlank() || line.startsWith("#") || findings.size() >= MOST_FINDINGS) {
        return;
      }
      String[] fields = line.split("\t", -1);
      if (fields.length == 2 && fields[0].equals("compiler")) {
        compiler = fields[1];
      } else if (fields.length == 2 && fields[0].equals("stack") && isBytes(fields[1])) {
        stack = OptionalInt.of(Integer.parseInt(fields[1]));
      } else if (fields.length == FIELDS && isBytes(fields[3]) && kind(fields[2]).isPresent()) {
        add(fields);
      } else if (line.startsWith("<<<<<<<")
          || line.startsWith("=======")
          || line.startsWith(">>>>>>>")) {
        complain("the mark of a merge", "resolved; or run `ullage audit --accept` again");
      } else {
        complain("something else", "an object, symbol, kind, bytes and shape with tabs between");
      }
    }

    private void add(String[] fields) {
      String shape = fields[4].equals("-") ? "" : fields[4];
      Kind kind = kind(fields[2]).orElseThrow();
      Integer first = lines.putIfAbsent(List.of(fields[0], fields[1], kind), number);
      if (first != null) {
        complain("said on line " + first + " already", "said once");
      } else {
        pieces.add(new Piece(fields[1], fields[0], kind, Integer.parseInt(fields[3]), shape));
      }
    }

    private void complain(String found, String expected) {
      findings.add(
          new Finding(file.name(), number, 0, "the line", found, expected, Optional.empty()));
    }

    private static boolean isBytes(String word) {
      return word.matches("[0-9]{1,9}");
    }

    private static Optional<Kind> kind(String word) {
      for (Kind each : Kind.values()) {
        if (word(each).equals(word)) {
          return Optional.of(each);
        }
      }
      return Optional.empty();
    }
  }
}
