package dev.ullage.wiring;

import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;

/** What is soldered to the pin of a role, in words without a full stop. */
final class RoleWords {
  private final Loop loop;

  RoleWords(Loop loop) {
    this.loop = loop;
  }

  String of(Role role) {
    return switch (role) {
      case SDA -> "data of the sensor, and " + loop.board().pullUpOhm() + " ohm to the supply";
      case SCL -> "clock of the sensor, and " + loop.board().pullUpOhm() + " ohm to the supply";
      case KNOB -> "middle of the potentiometer, whose ends go to ground and to the supply";
      case LAMP -> "lamp with its resistor, to " + other(lamp().active());
      case SOUNDER -> "sounder to ground, through a transistor if it takes more than the pin gives";
      case RELAY -> "input of the relay's driver, active " + word(relay().active());
      case MUTE -> "mute button to ground; the part pulls the pin up";
      case TRANSMIT -> "input of the receiver of the report";
    };
  }

  private Outputs.Lamp lamp() {
    return loop.outputs().lamp().orElseThrow();
  }

  private Outputs.Relay relay() {
    return loop.outputs().relay().orElseThrow();
  }

  private static String other(Outputs.Active active) {
    return active == Outputs.Active.HIGH ? "ground" : "the supply";
  }

  private static String word(Outputs.Active active) {
    return active == Outputs.Active.HIGH ? "high" : "low";
  }
}
