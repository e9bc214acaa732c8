package dev.ullage.loop;

import static dev.ullage.loop.Key.group;
import static dev.ullage.loop.Key.optional;
import static dev.ullage.loop.Key.required;
import static dev.ullage.loop.Key.standard;

import java.math.BigDecimal;
import java.util.List;

/**
 * The keys of the loop file, in the order in which they are printed: the one table that reader,
 * printer and schema share. Ranges that follow from other keys are in {@link Rules}.
 */
final class Keys {
  /** Beyond this a number is a slip, and 32-bit arithmetic in the firmware would overflow. */
  static final BigDecimal LARGEST = BigDecimal.valueOf(1_000_000_000);

  private Keys() {}

  /** One byte of a list. */
  static final Shape BYTE = hex(0x00, 0xFF);

  private static final Key FRAME =
      group(
          "frame",
          "the bytes of one reading",
          standard("skip_bytes", whole(0, 32), 0L, "leading bytes to drop"),
          standard("samples", whole(1, 64), 1L, "samples in a frame"),
          standard("columns", whole(1, 64), 1L, "samples in a row of a grid; for pictures only"),
          standard("sample_bytes", whole(1, 4), 2L, "bytes of a sample, without a check byte"),
          standard(
              "byte_order", words("big", "little"), "big", "which byte comes first: big | little"),
          standard("signed", new Shape.Flag(), true, "two's complement"),
          standard("shift_right", whole(0, 31), 0L, "bits to drop after assembly"),
          standard("bits", whole(0, 32), 0L, "bits that count after that; 0 for all that are left"),
          optional(
              "check",
              new Shape.Group(
                  List.of(
                      required(
                          "crc8",
                          groupOf(
                              required("poly", hex(0x01, 0xFF), "polynomial without its x^8"),
                              required("init", hex(0x00, 0xFF), "start value"),
                              standard(
                                  "over",
                                  words("sample", "frame"),
                                  "sample",
                                  "one check byte after each: sample | frame")),
                          "an 8-bit check, highest bit first")),
                  true),
              "check bytes: none | crc8"));

  private static final Key SENSOR =
      required(
          "sensor",
          groupOf(
              standard(
                  "bus",
                  new Shape.Choice(List.of("i2c"), List.of("spi", "onewire", "analog")),
                  "i2c",
                  "i2c; spi, onewire and analog are not available yet"),
              required(
                  "address",
                  new Shape.Whole(0x08, 0x77, false, true, "7-bit address"),
                  "7-bit bus address"),
              standard("speed_hz", whole(1_000, 1_000_000), 100_000L, "fastest bus clock, in Hz"),
              standard("ask", new Shape.Bytes(8), List.of(), "bytes written before the read"),
              standard(
                  "restart",
                  new Shape.Flag(),
                  true,
                  "between ask and read: true for a repeated START, false for STOP, then START"),
              standard("wait_ms", whole(0, 10_000), 0L, "between ask and read, in ms"),
              standard(
                  "frozen_after",
                  zeroOr(2, 255),
                  0L,
                  "readings without any change that count as a fault; 0 for never"),
              FRAME,
              group(
                  "scale",
                  "value = raw * gain + offset",
                  standard("gain", decimal(), BigDecimal.ONE, "units of one raw count; not 0"),
                  standard(
                      "offset",
                      decimal(),
                      BigDecimal.ZERO,
                      "value of the raw count 0, in the unit"),
                  standard("unit", new Shape.Text(12), "counts", "the unit's name"))),
          "how a reading is asked for, and what comes back");

  private static final Key AVERAGE =
      group(
          "average",
          "from samples to the one value that is judged",
          standard(
              "frame",
              new Shape.Choice(List.of("mean", "max", "min", "share_above"), List.of("median")),
              "mean",
              "of the samples of a frame: mean | max | min | share_above (in per cent)"),
          standard(
              "over_time",
              words("none", "block", "moving", "exponential", "median"),
              "none",
              "of successive readings: none | block | moving | exponential | median"),
          optional(
              "readings", whole(1, 255), "readings averaged; exponential: weight 1 / readings"),
          optional("level", decimal(), "share_above counts the samples above this, in the unit"));

  private static final Key ALARM =
      required(
          "alarm",
          groupOf(
              standard(
                  "when", words("above", "below", "outside"), "above", "above | below | outside"),
              optional("threshold", decimal(), "trips past this, in the unit"),
              optional(
                  "knob",
                  groupOf(
                      required("from", decimal(), "threshold at the lowest voltage, in the unit"),
                      required("to", decimal(), "threshold at the supply voltage, in the unit")),
                  "a potentiometer that sets the threshold"),
              optional("low", decimal(), "outside: trips below this, in the unit"),
              optional("high", decimal(), "outside: trips above this, in the unit"),
              standard(
                  "hysteresis",
                  new Shape.Decimal(BigDecimal.ZERO, LARGEST),
                  BigDecimal.ZERO,
                  "how far back inside it clears, in the unit"),
              standard("trip_after", whole(1, 255), 1L, "successive readings past the limit"),
              standard("clear_after", whole(1, 255), 1L, "successive readings back inside"),
              standard(
                  "latch", new Shape.Flag(), false, "stays on until the mute button is pressed"),
              standard(
                  "on_sensor_fault",
                  words("alarm", "hold", "quiet"),
                  "alarm",
                  "what a dead sensor does to the alarm: alarm | hold | quiet"),
              standard(
                  "faults_allowed", whole(1, 255), 5L, "failed readings in a row before that")),
          "when the alarm goes on and off");

  private static final Key OUTPUTS =
      optional(
          "outputs",
          groupOf(
              optional(
                  "lamp",
                  groupOf(
                      standard(
                          "blink_ms",
                          zeroOr(20, 10_000),
                          0L,
                          "on, and off, for this long; 0 for steady"),
                      active()),
                  "a lamp"),
              optional(
                  "sounder",
                  groupOf(
                      standard(
                          "tone_hz", zeroOr(100, 10_000), 0L, "in Hz; 0 if it makes its own tone"),
                      standard("on_ms", whole(10, 10_000), 200L, "sounds for this long"),
                      standard("off_ms", zeroOr(10, 10_000), 0L, "then is silent; 0 for no pause")),
                  "a sounder"),
              optional("relay", groupOf(active()), "a relay, through its driver")),
          "what the alarm drives; left out: a steady lamp");

  private static final Key EXTRAS =
      group(
          "extras",
          "what it can do besides",
          optional(
              "report",
              groupOf(
                  standard("baud", whole(1_200, 115_200), 9_600L, "bits per second"),
                  standard("send", words("average", "frame"), "average", "average | frame")),
              "one text line for each reading over the serial port"),
          standard(
              "settings",
              new Shape.Flag(),
              false,
              "the threshold is kept without power, and can be changed"),
          optional(
              "watchdog_ms", whole(16, 8_000), "restarts after this long without progress, in ms"),
          standard(
              "sleep", words("none", "idle", "deep"), "none", "while it waits: none | idle | deep"),
          standard("mute_button", new Shape.Flag(), false, "a button that silences the alarm"));

  private static final Key BOARD =
      group(
          "board",
          "what surrounds the part",
          optional("supply_v", volts(), "supply voltage, in V"),
          optional(
              "clock_hz",
              whole(100_000, 64_000_000),
              "in Hz; left out: as the part leaves the factory"),
          standard("pull_up_ohm", whole(100, 1_000_000), 4_700L, "of each bus line, in ohm"),
          standard("bus_capacitance_pf", whole(1, 5_000), 100L, "of each bus line, in pF"),
          standard(
              "stretch_us",
              whole(0, 100_000),
              (long) Circuit.USUAL.stretchUs(),
              "the sensor holds the clock this long after a byte, in us"),
          standard(
              "supply",
              words("bench", "usb", "coin_cell", "battery"),
              "bench",
              "what feeds it: bench | usb | coin_cell | battery"),
          optional("battery_mah", whole(1, 1_000_000), "what the battery holds, in mAh"),
          optional("sensor_v", volts(), "supply of the sensor, where it has its own, in V"),
          standard("sensor_ma", milliamperes(), Circuit.USUAL.sensorMa(), "of the sensor, in mA"),
          standard("lamp_v", volts(), Circuit.USUAL.lampV(), "forward voltage of the lamp, in V"),
          standard(
              "lamp_ma", milliamperes(), Circuit.USUAL.lampMa(), "wanted through the lamp, in mA"),
          standard(
              "sounder_ma", milliamperes(), Circuit.USUAL.sounderMa(), "of the sounder, in mA"),
          standard(
              "relay_ma", milliamperes(), Circuit.USUAL.relayMa(), "of the relay's coil, in mA"),
          group(
              "pins",
              "by role; what is not named is chosen",
              pin("sda", "bus data"),
              pin("scl", "bus clock"),
              pin("knob", "the potentiometer's wiper"),
              pin("lamp", "the lamp"),
              pin("sounder", "the sounder"),
              pin("relay", "the relay's driver"),
              pin("mute", "the mute button"),
              pin("transmit", "serial data out")));

  /** The whole file. */
  static final Shape.Group FILE =
      groupOf(
          required("loop", new Shape.Text(80), "a name of your own"),
          standard(
              "period_ms",
              whole(10, 600_000),
              1_000L,
              "from the start of a reading to the next, in ms"),
          SENSOR,
          AVERAGE,
          ALARM,
          OUTPUTS,
          EXTRAS,
          BOARD,
          standard(
              "bus_driver",
              words("auto", "bitbang", "polled", "buffered"),
              "auto",
              "auto | bitbang | polled | buffered"),
          group(
              "buffer",
              "of the buffered driver",
              standard("send_bytes", whole(1, 255), 32L, "bytes"),
              standard("receive_bytes", whole(1, 255), 32L, "bytes")),
          group(
              "bring",
              "what your own code will add",
              standard("flash_bytes", whole(0, 16_777_216), 0L, "bytes"),
              standard("ram_bytes", whole(0, 16_777_216), 0L, "bytes"),
              standard("stack_bytes", whole(0, 16_777_216), 0L, "bytes")),
          group(
              "margin",
              "what must stay free",
              standard("flash_percent", whole(0, 90), 5L, "per cent of the flash"),
              standard("ram_bytes", whole(0, 65_536), 16L, "bytes")));

  static Shape.Group groupOf(Key... keys) {
    return new Shape.Group(List.of(keys), false);
  }

  private static Shape whole(long min, long max) {
    return new Shape.Whole(min, max, false, false, "whole number");
  }

  private static Shape zeroOr(long min, long max) {
    return new Shape.Whole(min, max, true, false, "whole number");
  }

  private static Shape hex(long min, long max) {
    return new Shape.Whole(min, max, false, true, "byte");
  }

  private static Shape decimal() {
    return new Shape.Decimal(LARGEST.negate(), LARGEST);
  }

  private static Shape words(String... words) {
    return new Shape.Choice(List.of(words), List.of());
  }

  private static Shape volts() {
    return new Shape.Decimal(BigDecimal.ONE, BigDecimal.valueOf(6));
  }

  private static Shape milliamperes() {
    return new Shape.Decimal(new BigDecimal("0.001"), BigDecimal.valueOf(1_000));
  }

  private static Key active() {
    return standard(
        "active", words("high", "low"), "high", "the level that switches it on: high | low");
  }

  private static Key pin(String role, String about) {
    return optional(role, new Shape.PinName(), about);
  }
}
