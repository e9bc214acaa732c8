package dev.ullage.cli;

/** Entry point of the process, and the only class that touches it. */
public final class Main {
  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    Tool tool = new Tool(Surroundings.ofProcess());
    int code = tool.run(args).number();
    System.exit(code);
  }
}
