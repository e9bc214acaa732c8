package dev.ullage.firmware;

import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.target.Pin;
import dev.ullage.target.Target;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The plan of one loop on one target.
 *
 * @param bus how the sensor is reached
 * @param pins by role
 * @param types the integer types, as narrow as can be
 * @param constants every number of the emitted C, in the order of {@code config.h}
 * @param modules the units of emitted C, in link order
 * @param buffers static memory whose size follows from the loop
 * @param notes what a user should know about this plan, a sentence each
 */
public record Firmware(
    Loop loop,
    Target target,
    Clocking clock,
    BusPlan bus,
    Pace pace,
    Optional<Tone> tone,
    Optional<Serial> serial,
    Arithmetic arithmetic,
    Map<Role, Pin> pins,
    List<TypeName> types,
    List<Constant> constants,
    List<Module> modules,
    List<Buffer> buffers,
    List<String> notes) {

  public Firmware {
    pins = Collections.unmodifiableMap(pins.isEmpty() ? Map.of() : new EnumMap<>(pins));
    types = List.copyOf(types);
    constants = List.copyOf(constants);
    modules = List.copyOf(modules);
    buffers = List.copyOf(buffers);
    notes = List.copyOf(notes);
  }

  /** The same plan on a target that differs from this one in its memories only. */
  Firmware on(Target twin) {
    return new Firmware(
        loop,
        twin,
        clock,
        bus,
        pace,
        tone,
        serial,
        arithmetic,
        pins,
        types,
        constants,
        modules,
        buffers,
        notes);
  }

  /** What a module of this plan is made of, where it is part of the plan. */
  public Optional<Module> module(String name) {
    return modules.stream().filter(module -> module.name().equals(name)).findFirst();
  }
}
