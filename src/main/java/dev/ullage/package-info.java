/** Ullage: what a sensor loop needs on a small microcontroller, and what is left. */
@NullMarked
package dev.ullage;

import org.jspecify.annotations.NullMarked;
