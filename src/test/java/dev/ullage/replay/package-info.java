/** Replays against hand-made sequences, published figures, open data and the emitted C. */
@NullMarked
package dev.ullage.replay;

import org.jspecify.annotations.NullMarked;
