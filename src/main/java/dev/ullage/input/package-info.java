/** What is wrong with a file that the user wrote. Any reader may use it; it knows nothing else. */
@NullMarked
package dev.ullage.input;

import org.jspecify.annotations.NullMarked;
