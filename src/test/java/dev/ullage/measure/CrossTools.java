package dev.ullage.measure;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A cross compiler of the GNU toolchain, for one core. */
enum CrossTools {
  M0("arm-none-eabi-", "--specs=nosys.specs", "-mcpu=cortex-m0", "-mthumb"),
  M3("arm-none-eabi-", "--specs=nosys.specs", "-mcpu=cortex-m3", "-mthumb"),
  RV32EC("riscv64-unknown-elf-", "--specs=picolibc.specs", "-march=rv32ec", "-mabi=ilp32e"),
  RV32IMAC("riscv64-unknown-elf-", "--specs=picolibc.specs", "-march=rv32imac", "-mabi=ilp32");

  private final String prefix;
  private final String library;
  private final List<String> core;

  CrossTools(String prefix, String library, String... core) {
    this.prefix = prefix;
    this.library = library;
    this.core = List.of(core);
  }

  boolean isArm() {
    return this == M0 || this == M3;
  }

  /** Leaves the test out unless the compiler and its library are here. */
  void require() {
    Tool.require(prefix + "gcc");
    if (isArm()) {
      Tool.requireFile(Path.of("/usr/lib/arm-none-eabi/lib/libc.a"), "libnewlib-arm-none-eabi");
    } else {
      Tool.requireFile(Path.of("/usr/lib/picolibc"), "picolibc-riscv64-unknown-elf");
    }
  }

  /** Compiles a source, C unless its name ends in {@code .S}. */
  Path compile(Path folder, String name, String source, String... options) {
    write(folder.resolve(name), source);
    Path object = folder.resolve(name.substring(0, name.lastIndexOf('.')) + ".o");
    List<String> command = command(options);
    command.addAll(List.of("-std=gnu99", "-fstack-usage", "-ffreestanding", "-fno-common"));
    command.addAll(List.of("-c", name, "-o", object.toString()));
    Tool.output(folder, command.toArray(String[]::new));
    return object;
  }

  /** Links object files without anything but the compiler's own library. */
  Path link(Path folder, List<Path> objects, String... options) {
    write(folder.resolve("small.ld"), SCRIPT);
    Path program = folder.resolve("program.elf");
    List<String> command = command(options);
    command.addAll(List.of("-nostdlib", "-nostartfiles", "-Tsmall.ld"));
    objects.forEach(object -> command.add(object.toString()));
    command.addAll(List.of("-lgcc", "-o", program.toString()));
    Tool.output(folder, command.toArray(String[]::new));
    return program;
  }

  /** Compiles and links a source with the C library, as people do for a first try. */
  Path program(Path folder, String source, String... options) {
    write(folder.resolve("whole.c"), source);
    Path program = folder.resolve("whole.elf");
    List<String> command = command(options);
    command.addAll(List.of(library, "whole.c", "-lm", "-o", program.toString()));
    Tool.output(folder, command.toArray(String[]::new));
    return program;
  }

  /** What a tool of the binutils prints. */
  String output(Path folder, String tool, String... arguments) {
    List<String> command = new ArrayList<>(List.of(prefix + tool));
    command.addAll(List.of(arguments));
    return Tool.output(folder, command.toArray(String[]::new));
  }

  private List<String> command(String... options) {
    List<String> command = new ArrayList<>(List.of(prefix + "gcc"));
    command.addAll(core);
    command.addAll(List.of(options));
    return command;
  }

  private static void write(Path file, String text) {
    try {
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static final String SCRIPT =
      """
      ENTRY(Reset)
      MEMORY { flash (rx) : ORIGIN = 0x08000000, LENGTH = 1M
               ram (rwx) : ORIGIN = 0x20000000, LENGTH = 128K }
      SECTIONS {
        .isr_vector : { KEEP(*(.isr_vector)) } > flash
        .text : { *(.text .text.*) } > flash
        .rodata : { *(.rodata .rodata.* .srodata .srodata.*) } > flash
        .data : { *(.data .data.* .sdata .sdata.*) } > ram AT > flash
        .bss (NOLOAD) : { *(.bss .bss.* .sbss .sbss.* COMMON) } > ram
        /DISCARD/ : { *(.ARM.exidx* .ARM.extab* .eh_frame*) }
      }
      """;
}
