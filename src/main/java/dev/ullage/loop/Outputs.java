package dev.ullage.loop;

import java.util.Optional;

/** What the alarm drives. */
public record Outputs(Optional<Lamp> lamp, Optional<Sounder> sounder, Optional<Relay> relay) {

  /** A lamp; {@code blinkMs} is the time on and the time off, 0 for steady. */
  public record Lamp(int blinkMs, Active active) {}

  /**
   * A sounder.
   *
   * @param toneHz frequency to drive it with; 0 for one that makes its own tone
   * @param onMs, offMs the pattern; {@code offMs} 0 for a tone without a pause
   */
  public record Sounder(int toneHz, int onMs, int offMs) {

    /** Whether it beeps: a tone without a pause has no pattern. */
    public boolean hasPattern() {
      return offMs > 0;
    }
  }

  /** A relay, through its driver. */
  public record Relay(Active active) {}

  /** The level that switches something on. */
  public enum Active {
    HIGH,
    LOW
  }

  /** The level that switches on what the pin of a role drives; a choice for lamp and relay only. */
  public Active active(Board.Role role) {
    Optional<Active> chosen =
        switch (role) {
          case LAMP -> lamp.map(Lamp::active);
          case RELAY -> relay.map(Relay::active);
          case SDA, SCL, KNOB, SOUNDER, MUTE, TRANSMIT -> Optional.empty();
        };
    return chosen.orElse(Active.HIGH);
  }
}
