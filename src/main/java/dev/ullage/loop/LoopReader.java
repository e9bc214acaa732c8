package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import dev.ullage.input.SourceText;
import dev.ullage.input.YamlTree;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/**
 * Reads loop files. Any bytes give a loop that keeps every rule, or else an {@link
 * dev.ullage.input.InputException} with everything that is wrong; never another exception, and
 * never after a long time.
 */
public final class LoopReader {
  private LoopReader() {}

  /**
   * Reads a file.
   *
   * @throws dev.ullage.input.InputException if it cannot be read, or is wrong
   */
  public static Loop read(Path file) {
    return read(file.toString(), SourceText.bytesOf(file));
  }

  /**
   * Reads the bytes of a file.
   *
   * @param fileName for the findings
   * @throws dev.ullage.input.InputException if they are wrong
   */
  public static Loop read(String fileName, byte[] bytes) {
    Findings findings = new Findings(fileName);
    Node.Mapping file = YamlTree.read(SourceText.decode(fileName, bytes), findings);
    Draft draft = new Draft();
    draft.place("", file.line(), file.column());
    new GroupReader(findings, draft).read(Keys.FILE, "", file);
    new Rules(LoopBuilder.build(draft), draft, findings).judge();
    findings.throwIfAny();
    return LoopBuilder.build(draft);
  }

  /**
   * Reads the text of a file.
   *
   * @param fileName for the findings
   * @throws dev.ullage.input.InputException if it is wrong
   */
  public static Loop read(String fileName, String text) {
    return read(fileName, text.getBytes(StandardCharsets.UTF_8));
  }
}
