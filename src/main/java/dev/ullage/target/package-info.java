/**
 * The catalogue of parts: what each has, and where that is known from. Depends on nothing else
 * here.
 */
@NullMarked
package dev.ullage.target;

import org.jspecify.annotations.NullMarked;
