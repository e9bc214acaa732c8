/** Holds promises against real compilers and linkers. */
@NullMarked
package dev.ullage.proof;

import org.jspecify.annotations.NullMarked;
