package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No file can make an audit end without an answer, take long, or take more than 256 MiB. */
class HostileFilesTest {
  private static final int TIMES = 120;

  /** What a toolchain leaves, and how it is called among the damaged files. */
  private static final Map<String, String> LEFT =
      Map.of(
          "program.elf", "arm.elf", "program.map", "x.map", "main.ci", "x.ci", "main.su", "x.su");

  @Test
  void everyFile_endsWithFiguresOrAFinding(@TempDir Path temp) throws IOException {
    Path originals = Files.createDirectories(temp.resolve("originals"));
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                HostileFiles.class.getName(),
                Files.createDirectories(temp.resolve("work")).toString(),
                "" + TIMES));
    addArm(temp, originals);
    Files.copy(originals.resolve("arm.elf"), temp.resolve("work").resolve("x.elf"));
    addAvr(temp, originals);
    addOthers(originals);
    command.addAll(HostileFiles.in(originals));
    String said = Tool.output(temp, command.toArray(String[]::new));
    assertTrue(
        said.matches("[0-9]+ with figures, [0-9]+ with a finding\n"),
        "Not as it should be:\n" + said);
    assertTrue(Integer.parseInt(said.split(" ")[0]) > TIMES, said);
    assertTrue(Integer.parseInt(said.split(" ")[3]) > TIMES, said);
  }

  private static void addArm(Path temp, Path originals) throws IOException {
    BuiltProgram.ARM.require();
    Path folder = Files.createDirectories(temp.resolve("arm"));
    BuiltProgram.ARM.build(folder, BuiltProgram.SOURCE, "-fstack-usage", "-fcallgraph-info=su");
    for (Map.Entry<String, String> each : LEFT.entrySet()) {
      Files.copy(folder.resolve(each.getKey()), originals.resolve(each.getValue()));
    }
  }

  private static void addAvr(Path temp, Path originals) throws IOException {
    BuiltProgram.AVR.require();
    Path folder = Files.createDirectories(temp.resolve("avr"));
    Path program = BuiltProgram.AVR.build(folder, BuiltProgram.SOURCE);
    Files.copy(program, originals.resolve("avr.elf"));
    Tool.output(folder, "avr-objcopy", "-O", "ihex", "program.elf", "avr.hex");
    Files.copy(folder.resolve("avr.hex"), originals.resolve("avr.hex"));
    Measured measured = Artefacts.read(program, Optional.empty());
    Files.writeString(originals.resolve("a.baseline"), Baseline.of(measured).text());
  }

  private static void addOthers(Path originals) throws IOException {
    Tool.require("sdcc");
    Path folder = Files.createTempDirectory(originals.getParent(), "sdcc");
    Files.writeString(folder.resolve("n.c"), "int first = 7; void main(void) { first++; }\n");
    Tool.output(folder, "sdcc", "-mmcs51", "n.c");
    Files.copy(folder.resolve("n.mem"), originals.resolve("n.mem"));
    Files.copy(folder.resolve("n.map"), originals.resolve("n.map"));
  }
}
