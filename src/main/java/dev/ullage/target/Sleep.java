package dev.ullage.target;

/** Sleep: register, enable bit and mode bits of idle and power-down. */
public record Sleep(String control, String enable, String idle, String powerDown) {}
