package dev.ullage.audit;

/** What was expected before anything was compiled, in bytes. */
public record Estimated(int flashLow, int flashLikely, int flashHigh, int staticRam, int stack) {}
