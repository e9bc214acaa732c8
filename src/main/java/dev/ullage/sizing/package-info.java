/** Bytes of a plan, from measured cost tables, with no compiler. */
@NullMarked
package dev.ullage.sizing;

import org.jspecify.annotations.NullMarked;
