/**
 * The commands: options in, exit code out. The only package that knows the argument library, and
 * that touches the process. Nothing else depends on it.
 */
@NullMarked
package dev.ullage.cli;

import org.jspecify.annotations.NullMarked;
