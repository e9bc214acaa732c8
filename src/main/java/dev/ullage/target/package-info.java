/**
 * The catalogue of parts: what each has, and where that is known from. Depends on nothing else here
 * but how wrong input is told.
 */
@NullMarked
package dev.ullage.target;

import org.jspecify.annotations.NullMarked;
