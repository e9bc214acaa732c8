package dev.ullage.slim;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Board;
import dev.ullage.loop.BufferSizes;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Sensor;

/** A loop with one of its parts exchanged. */
final class Edited {
  private Edited() {}

  static Loop with(Loop l, Sensor sensor) {
    return new Loop(
        l.name(),
        l.periodMs(),
        sensor,
        l.average(),
        l.alarm(),
        l.outputs(),
        l.extras(),
        l.board(),
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, Average average) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        average,
        l.alarm(),
        l.outputs(),
        l.extras(),
        l.board(),
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, Alarm alarm) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        l.average(),
        alarm,
        l.outputs(),
        l.extras(),
        l.board(),
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, Outputs outputs) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        l.average(),
        l.alarm(),
        outputs,
        l.extras(),
        l.board(),
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, Extras extras) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        l.average(),
        l.alarm(),
        l.outputs(),
        extras,
        l.board(),
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, Board board) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        l.average(),
        l.alarm(),
        l.outputs(),
        l.extras(),
        board,
        l.busDriver(),
        l.buffer(),
        l.bring(),
        l.margin());
  }

  static Loop with(Loop l, BusDriver driver, BufferSizes buffer) {
    return new Loop(
        l.name(),
        l.periodMs(),
        l.sensor(),
        l.average(),
        l.alarm(),
        l.outputs(),
        l.extras(),
        l.board(),
        driver,
        buffer,
        l.bring(),
        l.margin());
  }
}
