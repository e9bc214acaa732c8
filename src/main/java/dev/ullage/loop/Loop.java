package dev.ullage.loop;

/**
 * One sensor-read-average-alarm job, checked and with every default filled in.
 *
 * @param name what the user calls it: any text, to be escaped for the place it is printed in
 * @param periodMs milliseconds from the start of one reading to the start of the next
 */
public record Loop(
    String name,
    int periodMs,
    Sensor sensor,
    Average average,
    Alarm alarm,
    Outputs outputs,
    Extras extras,
    Board board,
    BusDriver busDriver,
    BufferSizes buffer,
    Bring bring,
    Margin margin) {
  /** The same with another sensor. */
  public Loop with(Sensor sensor) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another average. */
  public Loop with(Average average) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another alarm. */
  public Loop with(Alarm alarm) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another set of outputs. */
  public Loop with(Outputs outputs) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another set of extras. */
  public Loop with(Extras extras) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another board. */
  public Loop with(Board board) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }

  /** The same with another bus driver and its buffers. */
  public Loop with(BusDriver busDriver, BufferSizes buffer) {
    return new Loop(
        name, periodMs, sensor, average, alarm, outputs, extras, board, busDriver, buffer, bring,
        margin);
  }
}
