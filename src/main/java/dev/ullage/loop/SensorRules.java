package dev.ullage.loop;

import java.math.BigDecimal;
import java.math.MathContext;

/** Rules for what is asked and what comes back. */
final class SensorRules {
  private static final int MOST_BUFFERED_BYTES = 255;

  private final Judge judge;
  private final Sensor sensor;
  private final Frame frame;

  SensorRules(Judge judge) {
    this.judge = judge;
    this.sensor = judge.loop.sensor();
    this.frame = sensor.frame();
  }

  void columnsDivideSamples() {
    if (judge.trusts("sensor.frame.samples", "sensor.frame.columns")
        && frame.samples() % frame.columns() != 0) {
      judge.report(
          "sensor.frame.columns",
          Integer.toString(frame.columns()),
          "a divisor of the " + frame.samples() + " samples");
    }
  }

  void shiftLeavesBits() {
    int bits = 8 * frame.sampleBytes();
    if (judge.trusts("sensor.frame.sample_bytes", "sensor.frame.shift_right")
        && frame.shiftRight() >= bits) {
      judge.report(
          "sensor.frame.shift_right",
          Integer.toString(frame.shiftRight()),
          "less than the " + bits + " bits of a sample");
    }
  }

  void bitsAreThere() {
    int left = 8 * frame.sampleBytes() - frame.shiftRight();
    if (judge.trusts("sensor.frame.sample_bytes", "sensor.frame.shift_right", "sensor.frame.bits")
        && left > 0
        && frame.bits() > left) {
      judge.report(
          "sensor.frame.bits",
          Integer.toString(frame.bits()),
          "at most the " + left + " bits that `shift_right` leaves");
    }
  }

  void askFitsSendBuffer() {
    int needed = sensor.ask().size() + 1;
    if (isBuffered()
        && judge.trusts("sensor.ask", "buffer.send_bytes")
        && needed > judge.loop.buffer().sendBytes()) {
      judge.report(
          "buffer.send_bytes",
          Integer.toString(judge.loop.buffer().sendBytes()),
          "at least " + needed + ", for the address and " + sensor.ask().size() + " of `ask`");
    }
  }

  void frameFitsReceiveBuffer() {
    int room = judge.loop.buffer().receiveBytes();
    if (!isBuffered() || !judge.trusts("sensor.frame", "buffer.receive_bytes")) {
      return;
    }
    if (frame.bytes() > room) {
      judge.report(
          "sensor.frame",
          frame.bytes() + " bytes long",
          "at most " + room + " bytes long, to fit `buffer.receive_bytes`",
          frame.bytes() > MOST_BUFFERED_BYTES
              ? "choose bus_driver: polled, which needs no buffer"
              : "set `buffer.receive_bytes` to "
                  + frame.bytes()
                  + ", or choose bus_driver: polled");
    }
  }

  private boolean isBuffered() {
    return judge.trusts("bus_driver") && judge.loop.busDriver() == BusDriver.BUFFERED;
  }

  void waitHasSomethingToWaitFor() {
    if (judge.trusts("sensor.ask", "sensor.wait_ms")
        && sensor.ask().isEmpty()
        && sensor.waitMs() > 0) {
      judge.report(
          "sensor.wait_ms",
          Integer.toString(sensor.waitMs()),
          "0 without an `ask` to wait after",
          "name the command in `ask`, or leave `wait_ms` out");
    }
  }

  void gainIsNotZero() {
    if (judge.trusts("sensor.scale.gain") && sensor.scale().gain().signum() == 0) {
      judge.report("sensor.scale.gain", "0", "the value of one raw count, and never 0");
    }
  }

  void scaleDoesNotOverflow() {
    if (!judge.trusts("sensor.frame", "sensor.scale")) {
      return;
    }
    ValueRange range = ValueRange.ofSample(sensor);
    BigDecimal largest = range.low().abs().max(range.high().abs());
    if (largest.compareTo(Keys.LARGEST) > 0) {
      judge.report(
          "sensor.scale",
          "one that reaches " + judge.sampled(largest),
          "one that stays within " + judge.sampled(Keys.LARGEST),
          overflowCure());
    }
  }

  private String overflowCure() {
    BigDecimal gain = sensor.scale().gain();
    if (gain.abs().compareTo(BigDecimal.ONE) > 0) {
      BigDecimal inverse = BigDecimal.ONE.divide(gain, new MathContext(3));
      return "`gain` is units of one count: is it " + inverse.toPlainString() + "?";
    }
    return "choose a larger unit, or fewer bits: see `sample_bytes`, `shift_right` and `bits`";
  }
}
