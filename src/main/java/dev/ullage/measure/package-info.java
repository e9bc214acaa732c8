/**
 * Bytes of compiled code, read from object files, archives and linked programs. Depends on nothing
 * else here.
 */
@NullMarked
package dev.ullage.measure;

import org.jspecify.annotations.NullMarked;
