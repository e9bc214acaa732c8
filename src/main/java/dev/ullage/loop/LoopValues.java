package dev.ullage.loop;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/** Takes a loop apart into the values of its keys: what {@link LoopBuilder} puts together. */
final class LoopValues {
  private final Map<String, Object> values = new HashMap<>();

  private LoopValues() {}

  /** By the path of the key; in the form that the key's shape names. */
  static Map<String, Object> of(Loop loop) {
    LoopValues taken = new LoopValues();
    taken.put("loop", loop.name());
    taken.put("period_ms", loop.periodMs());
    taken.sensor(loop.sensor());
    taken.frame(loop.sensor().frame());
    taken.average(loop.average());
    taken.alarm(loop.alarm());
    taken.outputs(loop.outputs());
    taken.extras(loop.extras());
    taken.board(loop.board());
    taken.put("bus_driver", loop.busDriver());
    taken.put("buffer.send_bytes", loop.buffer().sendBytes());
    taken.put("buffer.receive_bytes", loop.buffer().receiveBytes());
    taken.put("bring.flash_bytes", loop.bring().flashBytes());
    taken.put("bring.ram_bytes", loop.bring().ramBytes());
    taken.put("bring.stack_bytes", loop.bring().stackBytes());
    taken.put("margin.flash_percent", loop.margin().flashPercent());
    taken.put("margin.ram_bytes", loop.margin().ramBytes());
    return taken.values;
  }

  private void put(String key, Object value) {
    values.put(key, value);
  }

  private void put(String key, int value) {
    values.put(key, (long) value);
  }

  private void put(String key, Enum<?> value) {
    values.put(key, LoopWords.of(value));
  }

  private void put(String key, Optional<?> value) {
    value.ifPresent(given -> values.put(key, given));
  }

  private void sensor(Sensor sensor) {
    put("sensor.bus", sensor.bus());
    put("sensor.address", sensor.address());
    put("sensor.speed_hz", sensor.speedHz());
    put("sensor.ask", sensor.ask());
    put("sensor.restart", sensor.restart());
    put("sensor.wait_ms", sensor.waitMs());
    put("sensor.frozen_after", sensor.frozenAfter());
    put("sensor.scale.gain", sensor.scale().gain());
    put("sensor.scale.offset", sensor.scale().offset());
    put("sensor.scale.unit", sensor.scale().unit());
  }

  private void frame(Frame frame) {
    put("sensor.frame.skip_bytes", frame.skipBytes());
    put("sensor.frame.samples", frame.samples());
    put("sensor.frame.columns", frame.columns());
    put("sensor.frame.sample_bytes", frame.sampleBytes());
    put("sensor.frame.byte_order", frame.byteOrder());
    put("sensor.frame.signed", frame.signed());
    put("sensor.frame.shift_right", frame.shiftRight());
    put("sensor.frame.bits", frame.bits());
    if (frame.check().isPresent()) {
      Frame.Crc8 crc = frame.check().get();
      put("sensor.frame.check", crc.toString());
      put("sensor.frame.check.crc8.poly", crc.poly());
      put("sensor.frame.check.crc8.init", crc.init());
      put("sensor.frame.check.crc8.over", crc.over());
    }
  }

  private void average(Average average) {
    put("average.frame", average.frame());
    put("average.over_time", average.overTime());
    put("average.readings", average.readings());
    put("average.level", average.level());
  }

  private void alarm(Alarm alarm) {
    put("alarm.when", LoopWords.of(alarm.limit()));
    if (alarm.limit() instanceof Alarm.Limit.Outside outside) {
      put("alarm.low", outside.low());
      put("alarm.high", outside.high());
    } else if (LimitRules.settingOf(alarm.limit()) instanceof Alarm.Setting.Fixed fixed) {
      put("alarm.threshold", fixed.threshold());
    } else if (LimitRules.settingOf(alarm.limit()) instanceof Alarm.Setting.Knob knob) {
      put("alarm.knob", knob.toString());
      put("alarm.knob.from", knob.from());
      put("alarm.knob.to", knob.to());
    }
    put("alarm.hysteresis", alarm.hysteresis());
    put("alarm.trip_after", alarm.tripAfter());
    put("alarm.clear_after", alarm.clearAfter());
    put("alarm.latch", alarm.latch());
    put("alarm.on_sensor_fault", alarm.onSensorFault());
    put("alarm.faults_allowed", alarm.faultsAllowed());
  }

  private void outputs(Outputs outputs) {
    put("outputs", outputs.toString());
    put("outputs.lamp", outputs.lamp());
    put("outputs.lamp.blink_ms", outputs.lamp().map(lamp -> (long) lamp.blinkMs()));
    put("outputs.lamp.active", outputs.lamp().map(lamp -> LoopWords.of(lamp.active())));
    put("outputs.sounder", outputs.sounder());
    if (outputs.sounder().isPresent()) {
      Outputs.Sounder sounder = outputs.sounder().get();
      put("outputs.sounder.tone_hz", sounder.toneHz());
      put("outputs.sounder.on_ms", sounder.onMs());
      put("outputs.sounder.off_ms", sounder.offMs());
    }
    put("outputs.relay", outputs.relay());
    put("outputs.relay.active", outputs.relay().map(relay -> LoopWords.of(relay.active())));
  }

  private void extras(Extras extras) {
    put("extras.report", extras.report());
    put("extras.report.baud", extras.report().map(report -> (long) report.baud()));
    put("extras.report.send", extras.report().map(report -> LoopWords.of(report.send())));
    put("extras.settings", extras.settings());
    if (extras.watchdogMs().isPresent()) {
      put("extras.watchdog_ms", extras.watchdogMs().getAsInt());
    }
    put("extras.sleep", extras.sleep());
    put("extras.mute_button", extras.muteButton());
  }

  private void board(Board board) {
    put("board.supply_v", board.supplyV());
    if (board.clockHz().isPresent()) {
      put("board.clock_hz", (Object) board.clockHz().getAsLong());
    }
    put("board.pull_up_ohm", board.pullUpOhm());
    put("board.bus_capacitance_pf", board.busCapacitancePf());
    circuit(board.circuit());
    board.pins().forEach((role, pin) -> put("board.pins." + LoopWords.of(role), pin));
  }

  private void circuit(Circuit circuit) {
    put("board.supply", circuit.supply());
    if (circuit.batteryMah().isPresent()) {
      put("board.battery_mah", circuit.batteryMah().getAsInt());
    }
    put("board.sensor_v", circuit.sensorV());
    put("board.sensor_ma", circuit.sensorMa());
    put("board.stretch_us", circuit.stretchUs());
    put("board.lamp_v", circuit.lampV());
    put("board.lamp_ma", circuit.lampMa());
    put("board.sounder_ma", circuit.sounderMa());
    put("board.relay_ma", circuit.relayMa());
  }
}
