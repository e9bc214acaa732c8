/* Watches the two lines as an oscilloscope would, and notes what breaks the rules. */
#ifndef BUS_CHECKER_H
#define BUS_CHECKER_H

#include <stdbool.h>
#include <stdint.h>

/* Both lines as they are from `ns` on. `by_master`: the firmware moved the data line. */
void checker_see(uint64_t ns, bool sda, bool scl, bool by_master);

/*
 * What the firmware does to the clock, and whether it is high. `stretched`: the sensor holds it, and
 * not for so long that the firmware may give up.
 */
void checker_clock(uint64_t ns, bool pulled, bool high, bool stretched);

/* Called now and then, to notice what does not happen. */
void checker_wait(uint64_t ns);

/* One line for each rule that was broken. */
void checker_violation(uint64_t ns, const char *rule);

/* The shortest time seen of each kind, in nanoseconds, by the names of UM10204. */
void checker_print(void);

/* Between START and STOP. */
bool checker_in_transaction(void);

#endif
