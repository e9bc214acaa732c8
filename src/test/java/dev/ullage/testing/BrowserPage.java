package dev.ullage.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Base64;
import java.util.List;
import java.util.Map;

/** One page in a {@link Browser}. */
public final class BrowserPage implements AutoCloseable {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Map<String, Integer> KEY_CODES =
      Map.of(
          "Tab",
          9,
          "Enter",
          13,
          "Escape",
          27,
          "End",
          35,
          "Home",
          36,
          "ArrowLeft",
          37,
          "ArrowRight",
          39,
          " ",
          32);

  private final Browser browser;
  private final String target;
  private final String session;

  BrowserPage(Browser browser, String target, String session, String address) {
    this.browser = browser;
    this.target = target;
    this.session = session;
    for (String domain : List.of("Page", "Runtime", "Log", "Network", "Accessibility")) {
      call(domain + ".enable", JSON.createObjectNode());
    }
    call("Page.navigate", JSON.createObjectNode().put("url", address));
    run(
        "new Promise(done => document.readyState === 'complete' && location.href !== 'about:blank'"
            + " ? done() : addEventListener('load', () => done()))");
  }

  @Override
  public void close() {
    browser.close(target);
  }

  private JsonNode call(String method, ObjectNode parameters) {
    return browser.call(session, method, parameters);
  }

  /** What an expression comes to, by value; a promise is waited for. */
  public JsonNode run(String expression) {
    ObjectNode parameters =
        JSON.createObjectNode()
            .put("expression", expression)
            .put("returnByValue", true)
            .put("awaitPromise", true);
    JsonNode answer = call("Runtime.evaluate", parameters);
    if (answer.has("exceptionDetails")) {
      throw new IllegalStateException(expression + ": " + answer.get("exceptionDetails"));
    }
    return answer.get("result").path("value");
  }

  /** Clicks in the middle of the first element that is selected. */
  public void click(String selector) {
    JsonNode at =
        run(
            "(() => { const e = document.querySelector(%s); e.scrollIntoView({block: 'center'});"
                    .formatted(JSON.valueToTree(selector))
                + " const b = e.getBoundingClientRect();"
                + " return [b.x + b.width / 2, b.y + b.height / 2]; })()");
    for (String type : List.of("mousePressed", "mouseReleased")) {
      call(
          "Input.dispatchMouseEvent",
          JSON.createObjectNode()
              .put("type", type)
              .put("x", at.get(0).asDouble())
              .put("y", at.get(1).asDouble())
              .put("button", "left")
              .put("clickCount", 1));
    }
  }

  /** Presses a key, by its name in the UI Events specification. */
  public void press(String key) {
    for (String type : List.of("keyDown", "keyUp")) {
      ObjectNode event =
          JSON.createObjectNode()
              .put("type", type)
              .put("key", key)
              .put("code", key.equals(" ") ? "Space" : key)
              .put("windowsVirtualKeyCode", KEY_CODES.get(key));
      if (type.equals("keyDown") && (key.equals("Enter") || key.equals(" "))) {
        event.put("text", key.equals("Enter") ? "\r" : " ");
      }
      call("Input.dispatchKeyEvent", event);
    }
  }

  /** Types where the focus is. */
  public void type(String text) {
    call("Input.insertText", JSON.createObjectNode().put("text", text));
  }

  public void screen(int width, int height) {
    call(
        "Emulation.setDeviceMetricsOverride",
        JSON.createObjectNode()
            .put("width", width)
            .put("height", height)
            .put("deviceScaleFactor", 1)
            .put("mobile", false));
  }

  /**
   * @param medium {@code screen} or {@code print}
   * @param scheme {@code light} or {@code dark}
   */
  public void media(String medium, String scheme) {
    ObjectNode media = JSON.createObjectNode().put("media", medium);
    media.putArray("features").addObject().put("name", "prefers-color-scheme").put("value", scheme);
    call("Emulation.setEmulatedMedia", media);
  }

  /** What is to be seen, as PNG. */
  public byte[] picture() {
    return data("Page.captureScreenshot", JSON.createObjectNode().put("format", "png"));
  }

  /** The page on paper, as PDF. */
  public byte[] paper() {
    return data("Page.printToPDF", JSON.createObjectNode().put("preferCSSPageSize", true));
  }

  private byte[] data(String method, ObjectNode parameters) {
    return Base64.getDecoder().decode(call(method, parameters).get("data").asText());
  }

  /** Every node that assistive technology is given. */
  public JsonNode accessibility() {
    return call("Accessibility.getFullAXTree", JSON.createObjectNode()).get("nodes");
  }

  /** Errors and warnings of the page, and whatever it asked of a network. */
  public List<String> complaints() {
    return browser.events(session).stream()
        .filter(BrowserPage::isComplaint)
        .map(each -> shortened(each.toString()))
        .toList();
  }

  private static String shortened(String event) {
    return event.substring(0, Math.min(event.length(), 300));
  }

  private static boolean isComplaint(JsonNode event) {
    JsonNode parameters = event.path("params");
    return switch (event.path("method").asText()) {
      case "Runtime.exceptionThrown", "Log.entryAdded", "Runtime.consoleAPICalled" -> true;
      case "Network.requestWillBeSent" ->
          !parameters.at("/request/url").asText().matches("(file|data):.*|about:blank");
      default -> false;
    };
  }
}
