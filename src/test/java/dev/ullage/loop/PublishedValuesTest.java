package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Holds what is computed here against published values. */
class PublishedValuesTest {

  /**
   * Nine clocks a byte; a pointer written, a repeated START and two bytes read are five bytes.
   * Source: NXP UM10204 Rev. 7.0, sections 3.1.5, 3.1.6 and 3.1.10; the times follow from it.
   */
  @Test
  void registerRead_takesFortyFiveClocks() {
    BusTime slow = BusTime.of(thermometer(100_000));
    assertEquals(5, slow.bytes());
    assertEquals(45, slow.byteClocks());
    assertEquals(450, slow.byteClocks() * 1_000_000 / slow.speedHz());
    assertEquals(3, slow.conditions());
    assertEquals(480, slow.microseconds());

    BusTime fast = BusTime.of(thermometer(400_000));
    assertEquals(112.5, fast.byteClocks() * 1e6 / fast.speedHz());
    assertEquals(120, fast.microseconds());
  }

  private static Sensor thermometer(int speedHz) {
    Frame frame = new Frame(0, 1, 1, 2, Frame.ByteOrder.BIG, true, 5, 0, Optional.empty());
    Scale scale = new Scale(new BigDecimal("0.125"), BigDecimal.ZERO, "degC");
    return new Sensor(Sensor.Bus.I2C, 0x48, speedHz, List.of(0), true, 0, 0, frame, scale);
  }

  /**
   * The address byte is the 7-bit address above the read/write bit. Source: NXP UM10204 Rev. 7.0,
   * section 3.1.10.
   */
  @ParameterizedTest
  @CsvSource({"0x90, 0x48", "0x91, 0x48", "0xD0, 0x68", "0xD1, 0x68"})
  void addressByte_isOfferedAsSevenBits(String written, String sevenBits) {
    Finding finding = addressFindings(written).get(0);
    assertEquals(Optional.of("it looks like the 8-bit form of " + sevenBits), finding.cure());
  }

  /**
   * Sixteen addresses are reserved, 0x08 to 0x77 remain. Source: NXP UM10204 Rev. 7.0, section
   * 3.1.12, table 4.
   */
  @Test
  void reservedAddresses_areRefusedAndOnlyThose() {
    List<Integer> accepted =
        IntStream.rangeClosed(0x00, 0x7F)
            .filter(address -> addressFindings(Integer.toString(address)).isEmpty())
            .boxed()
            .toList();
    assertEquals(IntStream.rangeClosed(0x08, 0x77).boxed().toList(), accepted);
    assertEquals(112, accepted.size());
  }

  /** What is reserved for what. Source: NXP UM10204 Rev. 7.0, section 3.1.12, table 4. */
  @ParameterizedTest
  @CsvSource({
    "0x00, general call",
    "0x01, CBUS",
    "0x02, another bus format",
    "0x03, future purposes",
    "0x07, high-speed mode",
    "0x7B, 10-bit addressing",
    "0x7C, device identity"
  })
  void reservedAddress_isSaidToBeReservedForItsPurpose(String written, String purpose) {
    String cure = addressFindings(written).get(0).cure().orElseThrow();
    assertTrue(cure.contains("reserved for ") && cure.contains(purpose), cure);
  }

  private static List<Finding> addressFindings(String address) {
    try {
      String file = "loop: a\nsensor: {address: " + address + "}\nalarm: {threshold: 1}\n";
      LoopReader.read("loop.yaml", file);
      return List.of();
    } catch (InputException e) {
      return e.findings();
    }
  }

  /**
   * Sums of 12-bit values. Source: Microchip SAM documentation "Oversampling and Decimation", table
   * 1: with a 16-bit result 4 and 16 samples need no right shift, 64 need two and 256 four.
   */
  @ParameterizedTest
  @CsvSource({"4, 14", "16, 16", "64, 18", "256, 20"})
  void sumOfTwelveBitValues_hasThePublishedWidth(int values, int bits) {
    assertEquals(bits, new SumWidth(0xFFF, values, false).bits());
  }

  /** Worst sums of 12-bit values: 65520, 69615 and 262080. From memory; plain arithmetic. */
  @ParameterizedTest
  @CsvSource({"16, 16", "17, 17", "64, 18"})
  void worstSum_isHeldBitForBit(int values, int bits) {
    assertEquals(bits, new SumWidth(0xFFF, values, false).bits());
  }

  /** The rule k + ceil(log2 n) is never exceeded, and met by powers of two. From memory. */
  @Test
  void sumWidth_keepsTheGeneralRule() {
    for (int bits = 1; bits <= 16; bits++) {
      for (int values = 1; values <= 300; values++) {
        int rule = bits + Integer.SIZE - Integer.numberOfLeadingZeros(values - 1);
        int unsigned = new SumWidth((1L << bits) - 1, values, false).bits();
        int signed = new SumWidth(1L << (bits - 1), values, true).bits();
        assertTrue(unsigned <= rule && signed <= rule, bits + " bits, " + values + " values");
        assertEquals(rule, signed);
      }
    }
  }

  @Test
  void mostValues_isTheLargestCountThatFits() {
    for (SumWidth one :
        List.of(new SumWidth(0xFFFFFF, 1, false), new SumWidth(0x800000, 1, true))) {
      int most = Math.toIntExact(one.mostValues());
      assertTrue(new SumWidth(one.largest(), most, one.signed()).bits() <= SumWidth.MAX_BITS);
      assertTrue(new SumWidth(one.largest(), most + 1, one.signed()).bits() > SumWidth.MAX_BITS);
    }
  }
}
