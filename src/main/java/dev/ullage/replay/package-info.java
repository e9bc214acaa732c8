/**
 * Recorded readings, through the same arithmetic as the emitted C: what the alarm would have done.
 */
@NullMarked
package dev.ullage.replay;

import org.jspecify.annotations.NullMarked;
