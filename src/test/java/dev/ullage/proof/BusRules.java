package dev.ullage.proof;

import dev.ullage.loop.Sensor;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What the lines of the bus must keep to. The least times are those of the I2C-bus specification
 * UM10204 Rev. 7, "Characteristics of the SDA and SCL bus lines for Standard, Fast, and Fast-mode
 * Plus I2C-bus devices", in nanoseconds; {@code period} is that of the fastest clock of the mode.
 */
enum BusRules {
  STANDARD(4_700, 4_000, 4_000, 4_700, 4_000, 250, 4_700, 10_000),
  FAST(1_300, 600, 600, 600, 600, 100, 1_300, 2_500);

  private static final int STANDARD_HZ = 100_000;

  private final Map<String, Long> leastNs;

  BusRules(
      long low,
      long high,
      long holdStart,
      long setUpStart,
      long setUpStop,
      long setUpData,
      long free,
      long period) {
    leastNs =
        Map.of(
            "tLOW", low,
            "tHIGH", high,
            "tHD;STA", holdStart,
            "tSU;STA", setUpStart,
            "tSU;STO", setUpStop,
            "tSU;DAT", setUpData,
            "tBUF", free,
            "period", period);
  }

  static BusRules of(Sensor sensor) {
    return sensor.speedHz() <= STANDARD_HZ ? STANDARD : FAST;
  }

  /** What was broken, a line each; times that did not occur are not judged. */
  List<String> broken(Seen seen) {
    List<String> broken = new ArrayList<>(seen.violations());
    new TreeMap<>(leastNs)
        .forEach(
            (name, least) -> {
              long ns = seen.leastNs().get(name);
              if (ns != 0 && ns < least) {
                broken.add(name + " of " + ns + " ns is below " + least);
              }
            });
    return broken;
  }
}
