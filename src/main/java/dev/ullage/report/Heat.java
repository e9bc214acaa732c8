package dev.ullage.report;

/**
 * Colours for values between a lowest and a highest: dark and cold to light and warm, so that they
 * differ in lightness too.
 */
record Heat(double low, double high) {
  private static final int[][] STOPS = {
    {22, 30, 84}, {28, 92, 140}, {58, 150, 132}, {166, 184, 72}, {240, 170, 60}, {255, 232, 176}
  };
  // Indices of the usual 256 colours of terminals that are nearest to the stops.
  private static final int[] TERMINAL = {17, 24, 72, 143, 215, 223};
  private static final int DARK_STOPS = 3;
  private static final int WHITE = 231;
  private static final int BLACK = 16;

  /** The colour as CSS has it. */
  String css(double value) {
    double place = place(value) * (STOPS.length - 1);
    int stop = (int) Math.min(STOPS.length - 2, Math.floor(place));
    int[] mixed = new int[3];
    for (int i = 0; i < mixed.length; i++) {
      int from = STOPS[stop][i];
      mixed[i] = (int) Math.round(from + (place - stop) * (STOPS[stop + 1][i] - from));
    }
    return "#%02x%02x%02x".formatted(mixed[0], mixed[1], mixed[2]);
  }

  /** Black or white, whichever can be read on the colour. */
  String inkOn(double value) {
    return place(value) * (STOPS.length - 1) < DARK_STOPS - 0.8 ? "#ffffff" : "#000000";
  }

  /** The text on its colour, for a terminal. */
  String painted(double value, String text) {
    int stop = (int) Math.round(place(value) * (STOPS.length - 1));
    int ink = stop < DARK_STOPS - 1 ? WHITE : BLACK;
    return "\u001b[48;5;" + TERMINAL[stop] + ";38;5;" + ink + "m" + text + "\u001b[0m";
  }

  private double place(double value) {
    return high > low ? Math.max(0, Math.min(1, (value - low) / (high - low))) : 0.5;
  }
}
