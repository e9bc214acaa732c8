/**
 * Exact fractions, and the formulas in which the catalogue says how a divider, a timing word or a
 * time-out is worked out. Knows nothing else.
 */
@NullMarked
package dev.ullage.formula;

import org.jspecify.annotations.NullMarked;
