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
import java.util.Set;
import java.util.stream.Stream;

/**
 * Pins that are no ports, by the names that data sheets give them.
 *
 * <p>A capacitor of 100 nF beside each supply pin is common practice, no source. The other words
 * follow the pin descriptions of the data sheets, from memory.
 */
final class Terminals {
  static final String IN_THE_DATA_SHEET = "data sheet";

  private static final String NOTHING = "nothing";
  private static final String CAPACITOR = ", and 100 nF to ground";
  private static final String GROUND = "ground";
  private static final Set<String> MAIN = Set.of("VCC", "VDD", "VDDIO", "VDDIN", "IOVDD");

  private final Firmware firmware;

  Terminals(Firmware firmware) {
    this.firmware = firmware;
  }

  PinUse of(String number, String name) {
    if (MAIN.contains(name)) {
      return supply(number, name, supplyWords() + CAPACITOR);
    }
    return switch (name) {
      case "AVCC",
              "AVDD",
              "ADC_AVDD",
              "VDDA",
              "VDDANA",
              "VDDIO2",
              "VIO",
              "UVCC",
              "USB_VDD",
              "VREG_IN",
              "VREFP",
              "VREF+" ->
          supply(number, name, "the same supply" + CAPACITOR);
      case "VLCD" -> supply(number, name, "the same supply: there is no display");
      case "VBAT" ->
          hasBoostConverter()
              ? asTheDataSheetSays(number, name)
              : supply(number, name, "the same supply, or a battery that keeps the calendar");
      case "GND", "VSS", "AGND", "GNDANA", "VSSA", "UGND", "VREFN", "VREF-" ->
          plain(number, name, Kind.GROUND, GROUND, GROUND);
      case "BOOT0" -> extra(number, name, GROUND, "ground, so that the part starts from its flash");
      case "TESTEN" -> extra(number, name, GROUND, GROUND);
      case "AREF" -> reference(number, name);
      case "VDDCORE", "UCAP" -> extra(number, name, "1 uF", "1 uF to ground, and nothing else");
      case "VREG_VOUT" -> extra(number, name, "core", "DVDD, and 1 uF to ground");
      case "DVDD" -> extra(number, name, "core", "VREG_VOUT" + CAPACITOR);
      case "QSPI_SCLK", "QSPI_SD0", "QSPI_SD1", "QSPI_SD2", "QSPI_SD3", "QSPI_SS" ->
          extra(number, name, "flash", "the flash chip");
      case "LSW", "DEC1", "DEC2", "VINTA" -> asTheDataSheetSays(number, name);
      case "DCC" -> kept(number, name, "inductor", "nothing: the switching regulator is not used");
      case "ANT", "ANT1", "ANT2", "VDD_PA" ->
          kept(number, name, "radio", "nothing: the radio is not used");
      case "D+", "D-", "USB_DP", "USB_DM", "VBUS" ->
          kept(number, name, "USB", "nothing: USB is not used");
      case "LCDCAP" -> kept(number, name, "display", "nothing: there is no display");
      case "RESET", "NRST", "RUN" -> reset(number, name);
      case "NPOR" ->
          kept(number, name, "power-on", "nothing, or what holds it low until the supply stands");
      case "PEN" -> kept(number, name, "programming", "nothing: low would start programming");
      case "SWCLK", "SWDCLK", "SWD", "SWDIO" -> debug(number, name);
      case "XTAL1", "OSC_IN", "XC1" -> oscillator(number, name, true);
      case "XTAL2", "OSC_OUT", "XC2" -> oscillator(number, name, false);
      case "XIN", "XOUT" -> extra(number, name, "crystal", "crystal of 12 MHz");
      case "ADC6", "ADC7" ->
          plain(number, name, Kind.FREE, "free", "nothing: an input of the converter only");
      case "-", "NC" -> plain(number, name, Kind.NONE, "unconnected", NOTHING);
      default -> asTheDataSheetSays(number, name);
    };
  }

  /** Whether it is what the others that lead to the supply have beside them. */
  static boolean isMainSupply(PinUse pin) {
    return MAIN.contains(pin.name());
  }

  private static PinUse supply(String number, String name, String leadsTo) {
    return plain(number, name, Kind.SUPPLY, "supply", leadsTo);
  }

  private static PinUse kept(String number, String name, String label, String leadsTo) {
    return plain(number, name, Kind.KEPT, label, leadsTo);
  }

  private static PinUse extra(String number, String name, String label, String leadsTo) {
    return plain(number, name, Kind.EXTRA, label, leadsTo);
  }

  private static PinUse asTheDataSheetSays(String number, String name) {
    return extra(number, name, IN_THE_DATA_SHEET, "what the data sheet says");
  }

  PinUse debug(String number, String name) {
    return kept(number, name, "debug", "nothing: left to the programmer and the debugger");
  }

  PinUse reset(String number, String name) {
    return kept(number, name, "reset", "nothing, or a button to ground; a programmer may need it");
  }

  private PinUse reference(String number, String name) {
    return firmware.pins().containsKey(Role.KNOB)
        ? extra(number, name, "100 nF", "100 nF to ground, and nothing else")
        : kept(number, name, "reference", "nothing: the converter is not used");
  }

  private PinUse oscillator(String number, String name, boolean in) {
    return Uses.isClockOutside(firmware)
        ? crystal(number, name, in)
        : kept(number, name, "crystal", "nothing: the part runs on its own oscillator");
  }

  PinUse crystal(String number, String name, boolean in) {
    String leadsTo = in ? "crystal, or " + clock() : "other end of the crystal, if there is one";
    return extra(number, name, "crystal", leadsTo);
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
