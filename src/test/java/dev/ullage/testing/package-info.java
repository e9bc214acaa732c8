/** What tests of several packages share. */
@NullMarked
package dev.ullage.testing;

import org.jspecify.annotations.NullMarked;
