/**
 * What stands around the part: which pin of its package is for what, and whether resistors, levels,
 * times and currents will do. Works on a plan, so that it says what the emitted C does.
 */
@NullMarked
package dev.ullage.wiring;

import org.jspecify.annotations.NullMarked;
