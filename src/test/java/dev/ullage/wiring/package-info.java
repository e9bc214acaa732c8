@NullMarked
package dev.ullage.wiring;

import org.jspecify.annotations.NullMarked;
