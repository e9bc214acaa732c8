package dev.ullage.wiring;

import static dev.ullage.wiring.Uses.plain;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Clock;
import dev.ullage.target.Package;
import dev.ullage.wiring.PinUse.Kind;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;

/**
 * Pins that are no ports, by the names that data sheets give them.
 *
 * <p>A capacitor of 100 nF beside each supply pin is common practice, no source. The other words
 * follow the pin descriptions of the data sheets, from memory.
 */
final class Terminals {
  private static final String NOTHING = "nothing";
  private static final String CAPACITOR = ", and 100 nF to ground";
  private static final String GROUND = "ground";

  private final Firmware firmware;

  Terminals(Firmware firmware) {
    this.firmware = firmware;
  }

  PinUse of(String number, String name) {
    return switch (name) {
      case "VCC", "VDD", "IOVDD" -> supply(number, name, supplyWords() + CAPACITOR);
      case "AVCC", "VDDA", "VDDIO2", "UVCC", "VREF+", "ADC_AVDD", "USB_VDD" ->
          supply(number, name, "the same supply" + CAPACITOR);
      case "VLCD" -> supply(number, name, "the same supply: there is no display");
      case "VBAT" ->
          hasBoostConverter()
              ? boost(number, name)
              : supply(number, name, "the same supply, or a battery that keeps the calendar");
      case "LSW" -> boost(number, name);
      case "GND", "VSS", "AGND", "VSSA", "UGND", "VREF-" ->
          plain(number, name, Kind.GROUND, GROUND, GROUND);
      case "BOOT0" ->
          plain(number, name, Kind.EXTRA, GROUND, "ground, so that the part starts from its flash");
      case "AREF" -> reference(number, name);
      case "UCAP" -> plain(number, name, Kind.EXTRA, "1 uF", "1 uF to ground");
      case "D+", "D-", "VBUS", "USB_DP", "USB_DM" ->
          kept(number, name, "USB", "nothing: USB is not used");
      case "LCDCAP" -> kept(number, name, "display", "nothing: there is no display");
      case "RESET", "NRST", "RUN" -> reset(number, name);
      case "NPOR" ->
          kept(number, name, "power-on", "nothing, or what holds it low until the supply stands");
      case "PEN" -> kept(number, name, "programming", "nothing: low would start programming");
      case "XTAL1", "OSC_IN" -> oscillator(number, name, true);
      case "XTAL2", "OSC_OUT" -> oscillator(number, name, false);
      case "ADC6", "ADC7" ->
          plain(number, name, Kind.FREE, "free", "nothing: an input of the converter only");
      case "XIN", "XOUT" -> plain(number, name, Kind.EXTRA, "crystal", "an end of the crystal");
      case "VREG_IN" -> supply(number, name, "the same supply, and 1 uF to ground");
      case "VREG_VOUT" -> plain(number, name, Kind.EXTRA, "core", "DVDD, and 1 uF to ground");
      case "DVDD" -> plain(number, name, Kind.EXTRA, "core", "VREG_VOUT" + CAPACITOR);
      case "TESTEN" -> plain(number, name, Kind.EXTRA, GROUND, GROUND);
      case "SWCLK", "SWD" -> kept(number, name, "debug", "nothing, or a debug probe");
      case "QSPI_SD0" -> plain(number, name, Kind.EXTRA, "flash", "data in (IO0) of the flash");
      case "QSPI_SD1" -> plain(number, name, Kind.EXTRA, "flash", "data out (IO1) of the flash");
      case "QSPI_SD2", "QSPI_SD3" ->
          plain(number, name, Kind.EXTRA, "flash", "IO" + name.charAt(7) + " of the flash");
      case "QSPI_SCLK" -> plain(number, name, Kind.EXTRA, "flash", "clock of the flash");
      case "QSPI_SS" -> plain(number, name, Kind.EXTRA, "flash", "chip select of the flash");
      case "-", "NC" -> plain(number, name, Kind.NONE, "unconnected", NOTHING);
      default -> kept(number, name, "data sheet", "what the data sheet says");
    };
  }

  private static PinUse supply(String number, String name, String leadsTo) {
    return plain(number, name, Kind.SUPPLY, "supply", leadsTo);
  }

  private static PinUse kept(String number, String name, String label, String leadsTo) {
    return plain(number, name, Kind.KEPT, label, leadsTo);
  }

  private static PinUse boost(String number, String name) {
    String leadsTo = "what the data sheet says for a part that does not use its boost converter";
    return plain(number, name, Kind.EXTRA, "data sheet", leadsTo);
  }

  PinUse reset(String number, String name) {
    String leadsTo =
        "nothing, or a button to ground: low resets the part, and a programmer needs it";
    return kept(number, name, "reset", leadsTo);
  }

  private PinUse reference(String number, String name) {
    return firmware.pins().containsKey(Role.KNOB)
        ? plain(number, name, Kind.EXTRA, "100 nF", "100 nF to ground, and nothing else")
        : kept(number, name, "reference", "nothing: the converter is not used");
  }

  private PinUse oscillator(String number, String name, boolean in) {
    return Uses.isClockOutside(firmware)
        ? crystal(number, name, in)
        : kept(number, name, "crystal", "nothing: the part runs on its own oscillator");
  }

  PinUse crystal(String number, String name, boolean in) {
    String leadsTo = in ? "crystal, or " + clock() : "other end of the crystal, if there is one";
    return plain(number, name, Kind.EXTRA, "crystal", leadsTo);
  }

  String clock() {
    return "a clock of " + Clocking.megahertz(firmware.clock().hz());
  }

  /** Of parts with the inductor's pin, {@code VBAT} is not what it is of others. */
  private boolean hasBoostConverter() {
    Stream<List<String>> packages = firmware.target().packages().stream().map(Package::pins);
    return packages.anyMatch(pins -> pins.contains("LSW"));
  }

  private String supplyWords() {
    Clock clock = firmware.target().clock();
    return firmware
        .loop()
        .board()
        .supplyV()
        .map(volts -> plainVolts(volts) + " V")
        .orElseGet(
            () ->
                plainVolts(clock.supplyFrom(firmware.clock().hz()))
                    + " V to "
                    + plainVolts(clock.supplyMax())
                    + " V");
  }

  private static String plainVolts(BigDecimal volts) {
    return volts.stripTrailingZeros().toPlainString();
  }
}
