/**
 * Cost tables from compilers: plans loops until no new module turns up, compiles each module once,
 * and writes down what it measures. The only place where emission, measuring and sizing meet.
 */
@NullMarked
package dev.ullage.calibrate;

import org.jspecify.annotations.NullMarked;
