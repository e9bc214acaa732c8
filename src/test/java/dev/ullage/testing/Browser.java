package dev.ullage.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;

/**
 * A Chromium without a window, driven over its DevTools protocol. Programs of the test's own
 * machine only: it opens files, and nothing from a network.
 */
public final class Browser implements AutoCloseable {
  private static final String PROGRAM = "chromium";
  private static final String LISTENING = "DevTools listening on ";
  private static final int LIMIT_SECONDS = 30;
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Path profile;
  private final Process process;
  private final WebSocket socket;
  private final AtomicInteger ids = new AtomicInteger();
  private final Map<Integer, CompletableFuture<JsonNode>> answers = new ConcurrentHashMap<>();
  private final List<JsonNode> events = new CopyOnWriteArrayList<>();

  private Browser(Path profile, Process process, URI address) {
    this.profile = profile;
    this.process = process;
    this.socket =
        HttpClient.newHttpClient().newWebSocketBuilder().buildAsync(address, new Listener()).join();
  }

  /** Leaves the test out where there is no Chromium. */
  public static Browser start() throws IOException {
    Tool.require(PROGRAM);
    Path profile = Files.createTempDirectory("browser");
    Process process =
        new ProcessBuilder(
                PROGRAM,
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-dev-shm-usage",
                "--hide-scrollbars",
                "--no-first-run",
                "--remote-debugging-port=0",
                "--user-data-dir=" + profile,
                "about:blank")
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    return new Browser(profile, process, address(process));
  }

  private static URI address(Process process) throws IOException {
    BufferedReader lines = process.errorReader();
    String line = lines.readLine();
    while (line != null && !line.startsWith(LISTENING)) {
      line = lines.readLine();
    }
    if (line == null) {
      throw new IOException("Chromium ended at once.");
    }
    Thread rest = new Thread(() -> lines.lines().forEach(any -> {}));
    rest.setDaemon(true);
    rest.start();
    return URI.create(line.substring(LISTENING.length()));
  }

  /** Opens a file in a page of its own. */
  public BrowserPage open(Path file) {
    ObjectNode blank = JSON.createObjectNode().put("url", "about:blank");
    String target = call("", "Target.createTarget", blank).get("targetId").asText();
    ObjectNode attach = JSON.createObjectNode().put("targetId", target).put("flatten", true);
    String session = call("", "Target.attachToTarget", attach).get("sessionId").asText();
    return new BrowserPage(this, target, session, file.toUri().toString());
  }

  void close(String target) {
    call("", "Target.closeTarget", JSON.createObjectNode().put("targetId", target));
  }

  /** Calls one method of the protocol and waits for what it answers. */
  JsonNode call(String session, String method, ObjectNode parameters) {
    int id = ids.incrementAndGet();
    ObjectNode message = JSON.createObjectNode().put("id", id).put("method", method);
    message.set("params", parameters);
    if (!session.isEmpty()) {
      message.put("sessionId", session);
    }
    CompletableFuture<JsonNode> answer = new CompletableFuture<>();
    answers.put(id, answer);
    socket.sendText(message.toString(), true).join();
    JsonNode answered = answer.orTimeout(LIMIT_SECONDS, TimeUnit.SECONDS).join();
    if (answered.has("error")) {
      throw new IllegalStateException(method + ": " + answered.get("error"));
    }
    return answered.get("result");
  }

  /** What happened in a page so far. */
  List<JsonNode> events(String session) {
    return events.stream().filter(each -> each.path("sessionId").asText().equals(session)).toList();
  }

  @Override
  public void close() throws IOException {
    socket.abort();
    process.destroy();
    try {
      if (!process.waitFor(LIMIT_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).forEach(file -> file.toFile().delete());
    } catch (UncheckedIOException stillInUse) {
      profile.toFile().deleteOnExit();
    }
  }

  /** Puts the pieces of a message together, and gives each answer to the one that waits for it. */
  private final class Listener implements WebSocket.Listener {
    private final StringBuilder text = new StringBuilder();

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence piece, boolean last) {
      text.append(piece);
      if (last) {
        take(text.toString());
        text.setLength(0);
      }
      from.request(1);
      return CompletableFuture.completedFuture(null);
    }

    private void take(String message) {
      try {
        JsonNode node = JSON.readTree(message);
        if (node.has("id")) {
          answers.get(node.get("id").asInt()).complete(node);
        } else {
          events.add(node);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
