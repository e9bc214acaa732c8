package dev.ullage.measure;

import dev.ullage.input.InputException;
import dev.ullage.measure.ElfImage.Section;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * A program as the linker left it: what is there, not what was meant.
 *
 * @param flashBytes program memory, first values of initialised data and a page for settings
 *     included
 * @param dataBytes initialised data, in RAM
 * @param staticRamBytes all data in RAM
 * @param eepromBytes data EEPROM
 * @param returnAddressBytes what a call puts on the stack
 * @param symbols what lies in these memories
 * @param stack the deepest that the stack can be
 */
public record LinkedProgram(
    int flashBytes,
    int dataBytes,
    int staticRamBytes,
    int eepromBytes,
    int returnAddressBytes,
    List<Symbol> symbols,
    StackBound stack) {
  private static final long RAM = 0x800000;
  private static final long EEPROM = 0x810000;
  private static final long BEHIND_EEPROM = 0x820000;

  public LinkedProgram {
    symbols = List.copyOf(symbols);
  }

  /**
   * @throws InputException where the file is no linked program for AVR, ARM or RISC-V, or a damaged
   *     one
   */
  public static LinkedProgram read(Path file) throws IOException {
    return read(String.valueOf(file.getFileName()), Files.readAllBytes(file));
  }

  /**
   * @param name what findings call it
   * @throws InputException where the bytes are no linked program for AVR, ARM or RISC-V, or a
   *     damaged one
   */
  public static LinkedProgram read(String name, byte[] bytes) {
    int machine = machine(bytes);
    return machine == ElfProgram.ARM || machine == ElfProgram.RISCV
        ? readMachine(name, bytes)
        : readAvr(name, bytes);
  }

  /** Where every ELF file has the number of its machine. */
  static int machine(byte[] bytes) {
    return bytes.length < 20 ? 0 : bytes[18] & 0xFF | (bytes[19] & 0xFF) << 8;
  }

  private static LinkedProgram readMachine(String name, byte[] bytes) {
    ElfHeaders headers = new ElfHeaders(name, bytes);
    ElfProgram program = new ElfProgramReader(name, bytes).read();
    if (!headers.isSmallAndLittle()) {
      throw headers.wrong("of another class or byte order", "a 32-bit little-endian ELF file");
    }
    if (!program.linked()) {
      throw headers.wrong("an object file", "a linked program");
    }
    if (program.names().isEmpty()) {
      throw headers.wrong(
          "one without symbols", "an ELF file with its symbol table (not stripped)");
    }
    try {
      return MachineProgram.read(program, headers.entry());
    } catch (ArithmeticException | IndexOutOfBoundsException e) {
      throw headers.damaged("symbols outside their sections");
    }
  }

  private static LinkedProgram readAvr(String name, byte[] bytes) {
    ElfImage image = new ElfImage(name, bytes);
    if (image.isRelocatable()) {
      throw image.wrong("an object file", "a linked program");
    }
    try {
      return of(image);
    } catch (ArithmeticException | IndexOutOfBoundsException e) {
      throw image.damaged("symbols outside their sections");
    }
  }

  private static LinkedProgram of(ElfImage image) {
    SymbolReader reader = new SymbolReader(image);
    List<Symbol> symbols = reader.read();
    int data = bytes(image, RAM, EEPROM, true);
    return new LinkedProgram(
        Math.addExact(bytes(image, 0, RAM, true), data),
        data,
        Math.addExact(data, bytes(image, RAM, EEPROM, false)),
        bytes(image, EEPROM, BEHIND_EEPROM, true),
        image.returnAddressBytes(),
        symbols,
        StackBound.of(symbols, image.returnAddressBytes(), reader.interruptible()));
  }

  private static int bytes(ElfImage image, long from, long to, boolean filled) {
    int sum = 0;
    for (Section each : image.sections()) {
      if (each.allocated()
          && each.filled() == filled
          && each.address() >= from
          && each.address() < to) {
        sum = Math.addExact(sum, each.size());
      }
    }
    return sum;
  }

  /** The symbol of that name. */
  public Optional<Symbol> symbol(String name) {
    return symbols.stream().filter(each -> each.name().equals(name)).findFirst();
  }
}
