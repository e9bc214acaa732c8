/**
 * What to change in a loop so that it fits a part: the alternatives to what it asks for, what each
 * takes from its user, and the search for the cheapest set of them. Knows loops, targets, plans and
 * estimates; knows nothing of how an answer is printed.
 */
@NullMarked
package dev.ullage.slim;

import org.jspecify.annotations.NullMarked;
