/**
 * The loop file: what it says, with every default filled in, and what is wrong with it. Depends on
 * nothing else here.
 */
@NullMarked
package dev.ullage.loop;

import org.jspecify.annotations.NullMarked;
