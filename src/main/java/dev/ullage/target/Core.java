package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.List;
import java.util.Optional;

/**
 * An instruction set with its ABI, and the compiler for it.
 *
 * @param name {@code avr25}, {@code cortex-m0}
 * @param tools what the names of the compiler and its companions begin with: {@code avr-}
 * @param needs what must be installed to build, in words
 * @param flags that tell the compiler the core; {@code PART} in them stands for the part's name
 * @param linkFlags more of them, for linking
 * @param smallFlags what makes a program of one unit smaller still
 * @param libraries what comes last on the linker's line
 * @param returnAddressBytes what a call puts on the stack by itself
 * @param bitBang how the program clocks a bus itself: from {@code clock} and {@code speed} in Hz
 *     and the least times {@code low_us}, {@code high_us}, {@code start_us} to {@code
 *     BUS_HALF_BIT}, {@code hz}, {@code byte_us} and {@code delay}, which names the way of waiting
 * @param bitSerial how it sends serial characters itself, as {@link SerialPort#rate}; empty where
 *     the port has no code for it
 */
public record Core(
    String name,
    String tools,
    String needs,
    List<String> flags,
    List<String> linkFlags,
    List<String> smallFlags,
    List<String> libraries,
    int returnAddressBytes,
    Recipe bitBang,
    Optional<Recipe> bitSerial) {

  private static final String PART = "PART";

  public Core {
    flags = List.copyOf(flags);
    linkFlags = List.copyOf(linkFlags);
    smallFlags = List.copyOf(smallFlags);
    libraries = List.copyOf(libraries);
  }

  /** The flags for a part. */
  public List<String> flagsFor(String part) {
    return flags.stream().map(flag -> flag.replace(PART, part)).toList();
  }

  /** Whether a program's words for its core can mean this one: for ARM and RISC-V they are few. */
  public boolean isOf(String words) {
    return name.equals(words) || tools.startsWith(words);
  }

  /** The compiler's command. */
  public String compiler() {
    return tools + "gcc";
  }
}
