package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Makes sensors whose every rule holds. */
record RandomSensor(Dice dice) {
  /** At least 16 counts, so that there is room for a limit between the ends. */
  private static final int FEWEST_BITS = 4;

  private static final int MOST_BUFFERED_BYTES = 255;

  /** Beyond this many bits a gain of 1 would leave the range that values may have. */
  private static final int MOST_BITS_FOR_LARGE_GAIN = 26;

  Sensor sensor(BusDriver driver) {
    List<Integer> ask = ask();
    boolean waits = !ask.isEmpty() && dice.percent(20);
    Frame frame = frame();
    while (driver == BusDriver.BUFFERED && frame.bytes() > MOST_BUFFERED_BYTES) {
      frame = frame();
    }
    return new Sensor(
        Sensor.Bus.I2C,
        dice.between(0x08, 0x77),
        dice.of(100_000, 100_000, 400_000, 50_000, 10_000),
        ask,
        dice.percent(75),
        waits ? dice.of(1, 16, 50, 250) : 0,
        dice.percent(25) ? dice.between(2, 255) : 0,
        frame,
        scale(frame));
  }

  private List<Integer> ask() {
    int count = dice.of(0, 1, 1, 1, 2, 2, dice.between(3, 8));
    return Stream.generate(() -> dice.between(0x00, 0xFF)).limit(count).toList();
  }

  private Frame frame() {
    int samples = dice.of(1, 1, 1, 1, 2, 3, 4, 8, 16, 64, dice.between(1, 64));
    int sampleBytes = dice.of(1, 2, 2, 2, 2, 3, 4);
    int mostShift = 8 * sampleBytes - FEWEST_BITS;
    int shift = dice.percent(30) ? dice.between(1, mostShift) : 0;
    int bits = dice.percent(30) ? dice.between(FEWEST_BITS, 8 * sampleBytes - shift) : 0;
    return new Frame(
        dice.percent(20) ? dice.between(1, 6) : 0,
        samples,
        columns(samples),
        sampleBytes,
        dice.of(Frame.ByteOrder.values()),
        dice.percent(50),
        shift,
        bits,
        dice.percent(25) ? Optional.of(crc8()) : Optional.empty());
  }

  private int columns(int samples) {
    List<Integer> divisors =
        IntStream.rangeClosed(1, samples).filter(n -> samples % n == 0).boxed().toList();
    return dice.of(divisors);
  }

  private Frame.Crc8 crc8() {
    return new Frame.Crc8(
        dice.of(0x31, 0x07, dice.between(0x01, 0xFF)),
        dice.of(0xFF, 0x00, dice.between(0x00, 0xFF)),
        dice.of(Frame.Crc8.Over.values()));
  }

  private Scale scale(Frame frame) {
    String gain =
        frame.rawBits() > MOST_BITS_FOR_LARGE_GAIN
            ? dice.of("0.1", "-0.0625", "0.000001")
            : dice.of(
                "1",
                "0.125",
                "0.25",
                "0.0625",
                "0.1",
                "0.01",
                "2",
                "-0.5",
                "0.0015259",
                "0.00390625",
                "7");
    String offset = dice.percent(60) ? "0" : dice.of("-45", "20.5", "-273.15", "1000");
    String unit = dice.of("degC", "degC", "%RH", "mm", "hPa", "counts", "\u00b5T", "\"\\");
    return new Scale(new BigDecimal(gain), new BigDecimal(offset), unit);
  }
}
