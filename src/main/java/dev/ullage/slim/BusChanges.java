package dev.ullage.slim;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.BufferSizes;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Loop;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Other ways to drive the bus. */
final class BusChanges {
  private BusChanges() {}

  static List<Change> of(Loop loop, Target target) {
    List<Change> changes = new ArrayList<>();
    boolean hardware = target.family().busPort().controller().isPresent();
    BusDriver now = effective(loop.busDriver(), hardware);
    if (hardware && now != BusDriver.POLLED) {
      changes.add(driver(loop, BusDriver.POLLED, 2, any -> polled(now)));
    }
    if (now != BusDriver.BITBANG) {
      changes.add(driver(loop, BusDriver.BITBANG, 3, BusChanges::bitBanged));
    }
    exactBuffers(loop).ifPresent(changes::add);
    return changes;
  }

  private static BusDriver effective(BusDriver asked, boolean hardware) {
    if (asked != BusDriver.AUTO) {
      return asked;
    }
    return hardware ? BusDriver.POLLED : BusDriver.BITBANG;
  }

  private static Change driver(
      Loop loop, BusDriver to, int weight, java.util.function.Function<Firmware, String> loss) {
    return new Change(
        Aspect.DRIVER,
        "bus_driver",
        word(loop.busDriver()),
        word(to),
        weight,
        loss,
        l -> Optional.of(l.with(to, l.buffer())));
  }

  private static String polled(BusDriver now) {
    return now == BusDriver.BITBANG
        ? "the bus sits on the pins of the part's own two-wire hardware"
        : "the program waits while the bus is busy, instead of being interrupted";
  }

  private static String bitBanged(Firmware slimmed) {
    return "the program moves the bus pins and waits meanwhile: the bus runs at about "
        + Math.round(slimmed.bus().hz() / 1000)
        + " kHz";
  }

  private static Optional<Change> exactBuffers(Loop loop) {
    BufferSizes now = loop.buffer();
    int send = Math.min(now.sendBytes(), loop.sensor().ask().size() + 1);
    int receive = Math.min(now.receiveBytes(), Math.max(1, loop.sensor().frame().bytes()));
    BufferSizes exact = new BufferSizes(send, receive);
    if (loop.busDriver() != BusDriver.BUFFERED || exact.equals(now)) {
      return Optional.empty();
    }
    return Optional.of(
        Change.of(
            Aspect.BUFFERS,
            "buffer",
            bytes(now),
            bytes(exact),
            1,
            "the bus buffers hold what this sensor needs, and nothing longer for a second device",
            l ->
                l.busDriver() == BusDriver.BUFFERED
                    ? Optional.of(l.with(l.busDriver(), exact))
                    : Optional.empty()));
  }

  private static String bytes(BufferSizes sizes) {
    return "send " + sizes.sendBytes() + ", receive " + sizes.receiveBytes();
  }

  private static String word(BusDriver driver) {
    return driver.name().toLowerCase(Locale.ROOT);
  }
}
