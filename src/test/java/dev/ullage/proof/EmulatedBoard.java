package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A program on QEMU's MPS2 board (AN385) with a TMP105 on the two-wire block of its shield; QEMU's
 * own machine protocol sets the temperature and looks at memory.
 */
final class EmulatedBoard implements AutoCloseable {
  private static final int PATIENCE_S = 20;
  private static final long LAMPS = 0x4002_8000L;
  private static final Pattern WORD = Pattern.compile(": (0x[0-9a-f]{8})");

  private final Process emulator;
  private final BlockingQueue<String> serial = new LinkedBlockingQueue<>();
  private final SocketChannel channel;
  private final BufferedReader answers;

  private EmulatedBoard(Process emulator, Path socket) throws IOException {
    this.emulator = emulator;
    this.channel = connect(socket);
    this.answers =
        new BufferedReader(
            new InputStreamReader(Channels.newInputStream(channel), StandardCharsets.UTF_8));
    Thread reader = new Thread(this::readSerial, "serial line");
    reader.setDaemon(true);
    reader.start();
    answers.readLine();
    ask("{\"execute\": \"qmp_capabilities\"}");
  }

  /** Starts a program, which waits for {@link #go}. */
  static EmulatedBoard of(Path elf, Path folder) throws IOException {
    Path socket = folder.resolve("qmp");
    Process emulator =
        new ProcessBuilder(
                "qemu-system-arm",
                "-machine",
                "mps2-an385",
                "-kernel",
                elf.toString(),
                "-device",
                "tmp105,id=sensor,bus=i2c,address=0x48",
                "-S",
                "-display",
                "none",
                "-monitor",
                "none",
                "-serial",
                "stdio",
                "-qmp",
                "unix:" + socket + ",server=on,wait=off")
            .redirectError(folder.resolve("emulator.txt").toFile())
            .start();
    return new EmulatedBoard(emulator, socket);
  }

  private static SocketChannel connect(Path socket) throws IOException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
    while (true) {
      SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
      try {
        channel.connect(UnixDomainSocketAddress.of(socket));
        return channel;
      } catch (IOException e) {
        channel.close();
        if (System.nanoTime() > end) {
          throw e;
        }
        Thread.onSpinWait();
      }
    }
  }

  private void readSerial() {
    try (BufferedReader lines = emulator.inputReader(StandardCharsets.US_ASCII)) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        serial.add(line);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private String ask(String command) throws IOException {
    channel.write(ByteBuffer.wrap((command + "\n").getBytes(StandardCharsets.UTF_8)));
    String answer = answers.readLine();
    while (answer != null && answer.contains("\"event\"")) {
      answer = answers.readLine();
    }
    assertTrue(answer != null && answer.contains("\"return\""), command + ": " + answer);
    return answer;
  }

  void go() throws IOException {
    ask("{\"execute\": \"cont\"}");
  }

  void halt() throws IOException {
    ask("{\"execute\": \"stop\"}");
  }

  /** What the sensor measures, in thousandths of a degree. */
  void temperature(int milliDegrees) throws IOException {
    ask(
        "{\"execute\": \"qom-set\", \"arguments\": {\"path\": \"/machine/peripheral/sensor\","
            + " \"property\": \"temperature\", \"value\": "
            + milliDegrees
            + "}}");
  }

  /** Whether the first lamp is lit. */
  boolean lamp() throws IOException {
    String answer =
        ask(
            "{\"execute\": \"human-monitor-command\", \"arguments\": {\"command-line\": \"xp /1wx "
                + LAMPS
                + "\"}}");
    Matcher word = WORD.matcher(answer);
    assertTrue(word.find(), answer);
    return (Integer.decode(word.group(1)) & 1) != 0;
  }

  /** The next lines of the serial line, so many; of a halted program those that it has sent. */
  List<String> lines(int count) throws InterruptedException {
    List<String> lines = new ArrayList<>();
    while (lines.size() < count) {
      String line = serial.poll(PATIENCE_S, TimeUnit.SECONDS);
      assertTrue(line != null, "the serial line is silent after " + lines);
      lines.add(line);
    }
    return lines;
  }

  @Override
  public void close() throws IOException {
    channel.close();
    emulator.destroyForcibly();
  }
}
