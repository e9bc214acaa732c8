package dev.ullage.report;

import dev.ullage.report.MemoryMap.Memory;
import dev.ullage.report.MemoryMap.Region;
import java.util.List;

/**
 * Memories as a picture: a bar for each, to its own scale, with regions in proportion, and below it
 * a list of what they are with their bytes.
 */
final class MemoryPicture {
  private static final int WIDTH = 720;
  private static final int EDGE = 16;
  private static final int BAR = 36;
  private static final int LINE = 18;
  private static final int COLUMNS = 3;

  /** Colours that people with any kind of colour vision tell apart: Okabe and Ito, 2008. */
  private static final List<String> COLORS =
      List.of(
          "#0072b2", "#e69f00", "#009e73", "#cc79a7", "#56b4e9", "#d55e00", "#f0e442", "#999999");

  private static final String RULES =
      ".free { fill: currentColor; fill-opacity: 0.1 } .end { stroke: #d00000; stroke-width: 2 }\n";

  private final Svg svg;
  private int y = EDGE;

  private MemoryPicture(Svg svg) {
    this.svg = svg;
  }

  /**
   * @param title what the picture is of
   */
  static String of(String title, List<Memory> memories) {
    int height = EDGE + LINE + memories.stream().mapToInt(MemoryPicture::height).sum();
    String description = String.join("; ", memories.stream().map(MemoryPicture::summary).toList());
    Svg svg = new Svg(WIDTH, height, "Memory map of " + title, description, RULES);
    MemoryPicture picture = new MemoryPicture(svg);
    svg.text(EDGE, picture.y + 8.0, "start", title);
    picture.y += LINE;
    memories.forEach(picture::draw);
    return svg.close().end();
  }

  private static int height(Memory memory) {
    return LINE + BAR + LINE * rows(memory) + EDGE;
  }

  private static int rows(Memory memory) {
    return (memory.regions().size() + COLUMNS) / COLUMNS;
  }

  private static String summary(Memory memory) {
    if (memory.capacity() == 0) {
      return memory.name() + ", " + memory.taken() + " bytes";
    }
    int left = memory.capacity() - memory.taken();
    String state = left >= 0 ? left + " left" : -left + " too much";
    return memory.name() + ", " + memory.capacity() + " bytes, " + state;
  }

  private void draw(Memory memory) {
    svg.text(EDGE, y + 13.0, "start", summary(memory));
    y += LINE;
    bar(memory, Math.max(1, Math.max(memory.capacity(), memory.taken())));
    y += BAR;
    list(memory);
    y += LINE * rows(memory) + EDGE;
  }

  private void bar(Memory memory, int scale) {
    svg.shape("rect", "class", "free", "x", EDGE, "y", y, "width", WIDTH - 2 * EDGE, "height", BAR);
    long at = 0;
    for (int i = 0; i < memory.regions().size(); i++) {
      Region region = memory.regions().get(i);
      double from = place(at, scale);
      at += region.bytes();
      double width = place(at, scale) - from;
      svg.open("rect", "x", from, "y", y, "width", width, "height", BAR, "fill", color(i));
      svg.open("title").characters(region.name() + ' ' + region.bytes()).close().close();
    }
    if (memory.capacity() > 0 && memory.taken() > memory.capacity()) {
      double end = place(memory.capacity(), scale);
      svg.shape("line", "class", "end", "x1", end, "y1", y - 3, "x2", end, "y2", y + BAR + 3);
    }
  }

  private static double place(long bytes, int scale) {
    return EDGE + (WIDTH - 2.0 * EDGE) * bytes / scale;
  }

  private void list(Memory memory) {
    for (int i = 0; i < memory.regions().size(); i++) {
      Region region = memory.regions().get(i);
      entry(i, region.name() + ' ' + region.bytes(), "fill", color(i));
    }
    int left = memory.capacity() - memory.taken();
    if (left > 0) {
      entry(memory.regions().size(), "free " + left, "class", "free");
    }
  }

  private void entry(int number, String words, String how, String look) {
    double x = EDGE + (number % COLUMNS) * (WIDTH - 2.0 * EDGE) / COLUMNS;
    double top = y + LINE * (number / COLUMNS) + 5.0;
    svg.shape("rect", "x", x, "y", top, "width", 10, "height", 10, how, look);
    svg.text(x + 15, top + 10, "start", words);
  }

  private static String color(int region) {
    return COLORS.get(region % COLORS.size());
  }
}
