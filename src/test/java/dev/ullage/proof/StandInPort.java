package dev.ullage.proof;

import dev.ullage.emit.EmittedFile;
import dev.ullage.emit.Sources;
import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Module;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The emitted sources of a plan with a port that no part has: its registers mean nothing, but its
 * code is of all kinds that a port can have, and compiles for every core.
 */
final class StandInPort {
  private static final String HEADER =
      """
      #ifndef PORT_H
      #define PORT_H
      #include "../src/config.h"
      #define PORT_REGISTER (*(volatile uint32_t *)0x40020000u)
      void port_begin(void);
      void port_pin(uint8_t pin, bool on);
      static inline void port_lamp(bool on) { port_pin(fixed_u8(3), on); }
      static inline void port_relay(bool on) { port_pin(fixed_u8(33), !on); }
      static inline void port_sounder(bool on) { port_pin(fixed_u8(200), on); }
      void port_lamp_toggle(void);
      bool port_mute_pressed(void);
      uint16_t port_knob(void);
      void port_serial_begin(void);
      void port_serial_send(uint8_t character);
      #endif
      """;

  private static final String BEGIN =
      """
      #include "port.h"
      static const uint16_t port_steps[3] = {1, 400, 7};
      static const uint8_t port_masks[5] = {1, 2, 4, 8, 16};
      static uint8_t port_state = 7;
      static uint32_t port_times = 70000;
      void port_begin(void) {
          PORT_REGISTER = port_steps[PORT_REGISTER & 1u];
          port_times += port_state;
      }
      void port_pin(uint8_t pin, bool on) {
          uint32_t mask = (uint32_t)1 << (pin & 15u);
          PORT_REGISTER = on ? mask : mask << 16;
      }
      void port_lamp_toggle(void) { port_state ^= port_masks[PORT_REGISTER & 3u]; }
      bool port_mute_pressed(void) { return (PORT_REGISTER & fixed_u16(4096)) != 0; }
      """;

  private static final String SERIAL =
      """
      #include "port.h"
      void port_serial_begin(void) { PORT_REGISTER = fixed_u32(SERIAL_BAUD) / PORT_REGISTER; }
      void port_serial_send(uint8_t character) {
          while ((PORT_REGISTER & 128u) == 0) { }
          PORT_REGISTER = character;
      }
      """;

  private static final String CONVERTER =
      """
      #include "port.h"
      /* Makes some programs longer than what a short jump of RISC-V reaches. */
      #define PORT_LONG __asm__ volatile(".rept 400\\n\\tnop\\n\\t.endr");
      void far_above(void);
      void far_above(void) { PORT_LONG }
      void longer(void);
      void longer(void) { PORT_LONG far_above(); }
      void reading_behind(void);
      void reading_behind(void) { PORT_LONG longer(); port_pin(3, true); }
      uint16_t port_knob(void) {
          reading_behind();
          int32_t now = (int32_t)PORT_REGISTER;
          return (uint16_t)(now / (int32_t)(PORT_REGISTER | 1u) + now % 10);
      }
      """;

  private static final String SETTINGS =
      """
      #include "../src/settings.h"
      #include "port.h"
      sum_t settings_trip;
      void settings_load(void) { settings_trip = fixed_sum(ALARM_TRIP); }
      void settings_keep(sum_t trip) {
          settings_trip = trip;
          PORT_REGISTER = (uint32_t)trip;
      }
      """;

  private static final String PACE =
      """
      #include "../src/pace.h"
      #include "port.h"
      OUTPUTS
      #if defined(__riscv)
      #define HANDLER __attribute__((interrupt))
      #else
      #define HANDLER
      #endif
      static volatile uint8_t pace_count;
      static __attribute__((noinline)) void pace_step(uint8_t by) {
          pace_count = (uint8_t)(pace_count + by % PORT_REGISTER);
          STEP
      }
      COUNTED
      void isr_pace(void) HANDLER;
      void isr_pace(void) { pace_count = (uint8_t)(pace_count + PORT_REGISTER / 10u); }
      END
      void pace_begin(void) { PORT_REGISTER = fixed_u16(1000); }
      void pace_tick(void) { while (pace_count == 0) { } pace_step(1); }
      void pace_poll(void) { if (pace_count != 0) { pace_step(2); } }
      void pace_rest(void) { do { pace_step(3); } while (pace_count != 0); }
      """;

  private static final String BUS =
      """
      #include "bus.h"
      #include "../port/port.h"
      bool bus_fault;
      BUFFERS
      static uint8_t bus_left;
      static bool bus_wait(void) {
          uint8_t patience = fixed_u8(250);
          while (PORT_REGISTER != 0) {
              if (--patience == 0) { bus_fault = true; return false; }
          }
          return true;
      }
      void bus_begin(void) { bus_fault = false; bus_left = 0; EMPTY (void)bus_wait(); }
      void bus_stop(void) { PORT_REGISTER = 2; (void)bus_wait(); }
      void bus_start(uint8_t address);
      void bus_start(uint8_t address) { PORT_REGISTER = address; (void)bus_wait(); }
      void bus_fetch(uint8_t count);
      void bus_fetch(uint8_t count) { bus_left = count; }
      void bus_flush(void);
      void bus_flush(void) { (void)bus_wait(); }
      void bus_put(uint8_t byte) { STORE if (bus_wait()) { PORT_REGISTER = byte; } }
      uint8_t bus_get(uint8_t acknowledge) { PORT_REGISTER = acknowledge; return FETCH; }
      """;

  private StandInPort() {}

  /** Headers and code by path. */
  static Map<String, String> sources(Firmware firmware) {
    Map<String, String> files = new LinkedHashMap<>();
    for (EmittedFile each : Sources.of(firmware)) {
      if (each.path().endsWith(".h") || each.path().startsWith("src/")) {
        files.put(each.path(), each.text());
      }
    }
    files.put("port/port.h", HEADER);
    firmware.modules().stream()
        .filter(each -> !Sources.path(each).startsWith("src/"))
        .forEach(each -> files.put(Sources.path(each), code(firmware, each)));
    return files;
  }

  private static String code(Firmware firmware, Module module) {
    return switch (module.name()) {
      case "begin" -> BEGIN;
      case "serial" -> SERIAL.replace("SERIAL_BAUD", "9600");
      case "converter" -> CONVERTER;
      case "settings" -> SETTINGS;
      case "pace" -> pace(module);
      default -> bus(firmware, module);
    };
  }

  private static String pace(Module module) {
    boolean steps = "yes".equals(module.traits().get("steps"));
    boolean counted = "counted".equals(module.traits().get("tick"));
    return PACE.replace("OUTPUTS", steps ? "#include \"../src/outputs.h\"" : "")
        .replace("STEP", steps ? "outputs_step();" : "")
        .replace("COUNTED", counted ? "" : "#if 0")
        .replace("END", counted ? "" : "#endif");
  }

  private static String bus(Firmware firmware, Module module) {
    StringBuilder buffers = new StringBuilder();
    for (Buffer each : firmware.buffers()) {
      if (each.module().equals(module.name())) {
        buffers.append("uint8_t %s[%d];%n".formatted(each.symbol(), each.bytes()));
      }
    }
    boolean buffered = !buffers.isEmpty();
    return BUS.replace("BUFFERS", buffers)
        .replace("STORE", buffered ? "bus_sent[bus_left & 3u] = byte;" : "")
        .replace("FETCH", buffered ? "bus_received[bus_left & 3u]" : "(uint8_t)PORT_REGISTER")
        .replace("EMPTY", buffered ? "bus_sent[0] = 0;" : "");
  }
}
