package dev.ullage.cli;

import java.nio.file.Path;
import java.util.List;

/**
 * One desk of {@link SameBytesTest}: results to standard output and to files, as {@link Main} does.
 */
final class Desk {
  private Desk() {}

  /**
   * @param args a loop file, a trace, and a folder to leave everything in
   */
  public static void main(String[] args) {
    Path folder = Path.of(args[2]);
    for (String part : List.of("attiny85", "stm32f030f4")) {
      Main.run("emit", args[0], "-t", part, "-o", folder.resolve(part).toString());
    }
    for (String format : List.of("text", "json", "csv", "md")) {
      String file = folder.resolve("survey." + format).toString();
      Main.run("survey", args[0], "--listed", "--format", format, "-o", file);
      Main.run("budget", args[0], "-t", "attiny85", "--format", format);
      Main.run("replay", args[0], args[1], "--format", format);
      Main.run("targets", "atmega328p", "--format", format);
    }
    for (String format : List.of("text", "json", "csv", "md", "svg")) {
      String file = folder.resolve("wiring." + format).toString();
      Main.run("wiring", args[0], "-t", "attiny85", "--format", format, "-o", file);
    }
    String page = folder.resolve("survey.html").toString();
    Main.run("survey", args[0], "--package", "DIP-8", "--format", "html", "-o", page);
    Main.run("replay", args[0], args[1], "--plot", folder.resolve("plot.svg").toString());
    Main.run("loop", args[0], "--explain");
  }
}
