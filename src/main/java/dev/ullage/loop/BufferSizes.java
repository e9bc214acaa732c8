package dev.ullage.loop;

/** Bytes of the buffered bus driver's two buffers. */
public record BufferSizes(int sendBytes, int receiveBytes) {}
