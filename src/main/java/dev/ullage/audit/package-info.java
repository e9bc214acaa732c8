/**
 * Holds built firmware against its part, its estimate and what was accepted before: reads what a
 * toolchain leaves, adds it up, and says what grew. Uses measured files, the catalogue and
 * verdicts; knows nothing of how the answer is printed.
 */
@NullMarked
package dev.ullage.audit;

import org.jspecify.annotations.NullMarked;
