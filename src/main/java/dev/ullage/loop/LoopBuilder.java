package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;

/** Makes a loop of a draft that has every value; stand-ins become part of it like any other. */
final class LoopBuilder {
  private static final int USUAL_READINGS = 8;
  private static final int USUAL_MEDIAN = 5;

  private final Draft draft;

  private LoopBuilder(Draft draft) {
    this.draft = draft;
  }

  static Loop build(Draft draft) {
    return new LoopBuilder(draft).loop();
  }

  private Loop loop() {
    return new Loop(
        draft.text("loop"),
        draft.count("period_ms"),
        sensor(),
        average(),
        alarm(),
        outputs(),
        extras(),
        board(),
        draft.word("bus_driver", BusDriver.class),
        new BufferSizes(draft.count("buffer.send_bytes"), draft.count("buffer.receive_bytes")),
        new Bring(
            draft.count("bring.flash_bytes"),
            draft.count("bring.ram_bytes"),
            draft.count("bring.stack_bytes")),
        new Margin(draft.count("margin.flash_percent"), draft.count("margin.ram_bytes")));
  }

  private Sensor sensor() {
    return new Sensor(
        draft.word("sensor.bus", Sensor.Bus.class),
        draft.count("sensor.address"),
        draft.count("sensor.speed_hz"),
        draft.bytes("sensor.ask"),
        draft.flag("sensor.restart"),
        draft.count("sensor.wait_ms"),
        draft.count("sensor.frozen_after"),
        frame(),
        new Scale(
            draft.decimal("sensor.scale.gain"),
            draft.decimal("sensor.scale.offset"),
            draft.text("sensor.scale.unit")));
  }

  private Frame frame() {
    return new Frame(
        draft.count("sensor.frame.skip_bytes"),
        draft.count("sensor.frame.samples"),
        draft.count("sensor.frame.columns"),
        draft.count("sensor.frame.sample_bytes"),
        draft.word("sensor.frame.byte_order", Frame.ByteOrder.class),
        draft.flag("sensor.frame.signed"),
        draft.count("sensor.frame.shift_right"),
        draft.count("sensor.frame.bits"),
        draft.has("sensor.frame.check.crc8") ? Optional.of(crc8()) : Optional.empty());
  }

  private Frame.Crc8 crc8() {
    return new Frame.Crc8(
        draft.count("sensor.frame.check.crc8.poly"),
        draft.count("sensor.frame.check.crc8.init"),
        draft.word("sensor.frame.check.crc8.over", Frame.Crc8.Over.class));
  }

  private Average average() {
    Average.OverTime overTime = draft.word("average.over_time", Average.OverTime.class);
    int readings =
        draft.has("average.readings") ? draft.count("average.readings") : usualReadings(overTime);
    return new Average(
        draft.word("average.frame", Average.OfFrame.class),
        overTime,
        readings,
        number("average.level"));
  }

  private static int usualReadings(Average.OverTime overTime) {
    return switch (overTime) {
      case NONE -> 1;
      case MEDIAN -> USUAL_MEDIAN;
      case BLOCK, MOVING, EXPONENTIAL -> USUAL_READINGS;
    };
  }

  private Alarm alarm() {
    return new Alarm(
        limit(),
        draft.decimal("alarm.hysteresis"),
        draft.count("alarm.trip_after"),
        draft.count("alarm.clear_after"),
        draft.flag("alarm.latch"),
        draft.word("alarm.on_sensor_fault", Alarm.OnFault.class),
        draft.count("alarm.faults_allowed"));
  }

  private Alarm.Limit limit() {
    return switch (draft.text("alarm.when")) {
      case "outside" ->
          new Alarm.Limit.Outside(
              number("alarm.low").orElse(BigDecimal.ZERO),
              number("alarm.high").orElse(BigDecimal.ZERO));
      case "below" -> new Alarm.Limit.Below(setting());
      default -> new Alarm.Limit.Above(setting());
    };
  }

  private Alarm.Setting setting() {
    if (draft.has("alarm.knob")) {
      return new Alarm.Setting.Knob(
          draft.decimal("alarm.knob.from"), draft.decimal("alarm.knob.to"));
    }
    return new Alarm.Setting.Fixed(number("alarm.threshold").orElse(BigDecimal.ZERO));
  }

  private Outputs outputs() {
    if (!draft.has("outputs")) {
      Outputs.Lamp steady = new Outputs.Lamp(0, Outputs.Active.HIGH);
      return new Outputs(Optional.of(steady), Optional.empty(), Optional.empty());
    }
    return new Outputs(
        draft.has("outputs.lamp")
            ? Optional.of(new Outputs.Lamp(draft.count("outputs.lamp.blink_ms"), active("lamp")))
            : Optional.empty(),
        draft.has("outputs.sounder") ? Optional.of(sounder()) : Optional.empty(),
        draft.has("outputs.relay")
            ? Optional.of(new Outputs.Relay(active("relay")))
            : Optional.empty());
  }

  private Outputs.Active active(String output) {
    return draft.word("outputs." + output + ".active", Outputs.Active.class);
  }

  private Outputs.Sounder sounder() {
    return new Outputs.Sounder(
        draft.count("outputs.sounder.tone_hz"),
        draft.count("outputs.sounder.on_ms"),
        draft.count("outputs.sounder.off_ms"));
  }

  private Extras extras() {
    return new Extras(
        draft.has("extras.report") ? Optional.of(report()) : Optional.empty(),
        draft.flag("extras.settings"),
        draft.has("extras.watchdog_ms")
            ? OptionalInt.of(draft.count("extras.watchdog_ms"))
            : OptionalInt.empty(),
        draft.word("extras.sleep", Extras.Sleep.class),
        draft.flag("extras.mute_button"));
  }

  private Extras.Report report() {
    return new Extras.Report(
        draft.count("extras.report.baud"),
        draft.word("extras.report.send", Extras.Report.Send.class));
  }

  private Board board() {
    return new Board(
        number("board.supply_v"),
        draft.has("board.clock_hz")
            ? OptionalLong.of(draft.whole("board.clock_hz"))
            : OptionalLong.empty(),
        draft.count("board.pull_up_ohm"),
        draft.count("board.bus_capacitance_pf"),
        pins(),
        circuit());
  }

  private Circuit circuit() {
    return new Circuit(
        draft.word("board.supply", Circuit.Supply.class),
        draft.has("board.battery_mah")
            ? OptionalInt.of(draft.count("board.battery_mah"))
            : OptionalInt.empty(),
        number("board.sensor_v"),
        draft.decimal("board.sensor_ma"),
        draft.count("board.stretch_us"),
        draft.decimal("board.lamp_v"),
        draft.decimal("board.lamp_ma"),
        draft.decimal("board.sounder_ma"),
        draft.decimal("board.relay_ma"));
  }

  private Map<Board.Role, String> pins() {
    Map<Board.Role, String> pins = new EnumMap<>(Board.Role.class);
    for (Board.Role role : Board.Role.values()) {
      String key = "board.pins." + LoopWords.of(role);
      if (draft.has(key)) {
        pins.put(role, draft.text(key));
      }
    }
    return pins;
  }

  private Optional<BigDecimal> number(String key) {
    return draft.has(key) ? Optional.of(draft.decimal(key)) : Optional.empty();
  }
}
