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
    Margin margin) {}
