/**
 * The plan: one loop on one target, as modules, constants, pins, dividers and buffers. Sizing and
 * emission both start from it and never from each other.
 */
@NullMarked
package dev.ullage.firmware;

import org.jspecify.annotations.NullMarked;
