/** Audits of files from real compilers, and of files that no compiler would write. */
@NullMarked
package dev.ullage.audit;

import org.jspecify.annotations.NullMarked;
