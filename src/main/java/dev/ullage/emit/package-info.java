/**
 * The firmware as files: templates filled from the plan, escaped for the place where a text lands,
 * and written without losing anything of the user's. The only package that knows FreeMarker.
 */
@NullMarked
package dev.ullage.emit;

import org.jspecify.annotations.NullMarked;
