package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Where the linker scripts of the ports for 32-bit cores put the pieces of a program: code,
 * constants, code that runs from RAM, initialised data, the rest of the data, each sorted. What is
 * lost between pieces follows from their sizes, and so does, on RISC-V, which instructions the
 * linker shortens.
 */
final class Layout {

  /**
   * What linking does to the bytes of the pieces.
   *
   * @param saved bytes that the code of each owner loses; helpers come last
   * @param flashLost bytes of program memory between pieces
   * @param ramLost bytes of RAM between pieces
   */
  record Effect(int[] saved, int flashLost, int ramLost) {}

  private final int grain;
  private final int owners;
  private final List<Piece> code;
  private final List<Piece> constants;
  private final List<Piece> ramCode;
  private final List<Piece> data;
  private final List<Piece> zeroes;
  private final boolean shortens;
  private final Map<List<Integer>, Program> programs = new ConcurrentHashMap<>();

  /** Code and constants: what is saved, and how long the whole is with what is lost. */
  private record Program(int[] saved, int lost) {}

  /**
   * @param owners how many modules there are
   * @param pieces what is kept, in any order
   */
  Layout(Machine machine, int owners, List<Piece> pieces) {
    this.grain = machine.grain();
    this.owners = owners;
    this.shortens = machine == Machine.RISCV;
    this.code = sorted(pieces, Kind.CODE);
    this.constants = sorted(pieces, Kind.RODATA);
    this.ramCode = sorted(pieces, Kind.RAM_CODE);
    this.data = sorted(pieces, Kind.DATA);
    this.zeroes = sorted(pieces, Kind.BSS);
  }

  private static List<Piece> sorted(List<Piece> pieces, Kind kind) {
    return pieces.stream().filter(each -> each.kind() == kind).sorted(Piece.ORDER).toList();
  }

  /** For modules with these counts, and buffers of these sizes. */
  Effect effect(List<Module> modules, List<Buffer> buffers) {
    int[] ramCodeSizes = sizes(ramCode, modules, List.of());
    int[] dataSizes = sizes(data, modules, buffers);
    int[] zeroSizes = sizes(zeroes, modules, buffers);
    int lostData = lost(ramCode, ramCodeSizes) + lost(data, dataSizes);
    int lostZeroes = lost(zeroes, zeroSizes);
    Reachable reachable =
        shortens ? Reachable.of(data, dataSizes, zeroes, zeroSizes, grain) : Reachable.EVERYTHING;
    Program program =
        reachable.everything()
            ? programs.computeIfAbsent(varying(modules), any -> program(modules, reachable))
            : program(modules, reachable);
    return new Effect(program.saved(), program.lost() + lostData, lostData + lostZeroes);
  }

  private int lost(List<Piece> pieces, int[] sizes) {
    return Machine.roundUp(end(pieces, sizes, 0), grain) - sum(sizes);
  }

  /** Whether the linker makes code shorter than the compiler left it. */
  boolean shortens() {
    return shortens;
  }

  /** The sizes of code that depends on counts. */
  private List<Integer> varying(List<Module> modules) {
    List<Integer> sizes = new ArrayList<>();
    for (Piece each : code) {
      if (!each.cost().steps().isEmpty()) {
        sizes.add(each.bytes(modules, List.of()));
      }
    }
    return sizes;
  }

  private Program program(List<Module> modules, Reachable reachable) {
    int[] saved = new int[owners + 1];
    int[] sizes = sizes(code, modules, List.of());
    if (shortens) {
      int[] savedByPiece = new Shortening(code, modules, sizes, reachable).saved();
      for (int i = 0; i < sizes.length; i++) {
        sizes[i] -= savedByPiece[i];
        int owner = code.get(i).owner();
        saved[owner < 0 ? owners : owner] += savedByPiece[i];
      }
    }
    int[] constantSizes = sizes(constants, modules, List.of());
    int end = end(constants, constantSizes, end(code, sizes, 0));
    return new Program(saved, Machine.roundUp(end, grain) - sum(sizes) - sum(constantSizes));
  }

  private static int[] sizes(List<Piece> pieces, List<Module> modules, List<Buffer> buffers) {
    int[] sizes = new int[pieces.size()];
    for (int i = 0; i < sizes.length; i++) {
      sizes[i] = pieces.get(i).bytes(modules, buffers);
    }
    return sizes;
  }

  private static int sum(int[] sizes) {
    int sum = 0;
    for (int each : sizes) {
      sum += each;
    }
    return sum;
  }

  private static int end(List<Piece> pieces, int[] sizes, int start) {
    int at = start;
    for (int i = 0; i < sizes.length; i++) {
      at = Machine.roundUp(at, pieces.get(i).alignment()) + sizes[i];
    }
    return at;
  }
}
