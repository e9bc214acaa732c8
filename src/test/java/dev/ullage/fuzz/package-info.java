/** Damaged files, by the thousand, through every door that files come in by. */
@NullMarked
package dev.ullage.fuzz;

import org.jspecify.annotations.NullMarked;
