#include "lines.h"

#include <stdio.h>

#include "bus_checker.h"
#include "sensor.h"

/* A firmware may give up on a sensor that holds the clock for longer: SMBus 3.2, tTIMEOUT. */
#define PATIENCE_NS 25000000u

static uint64_t stretch_ns;
static bool master_sda, master_scl, sda_high = true, scl_high = true;

/* The lines as they become, and what the sensor makes of them. */
static void settle(uint64_t ns, bool by_master)
{
    sda_high = !master_sda && !sensor_pulls_sda();
    scl_high = !master_scl && !sensor_pulls_scl();
    checker_see(ns, sda_high, scl_high, by_master);
    sensor_see(ns, sda_high, scl_high);
}

bool lines_change(bool sda, bool scl)
{
    return sda != master_sda || scl != master_scl;
}

void lines_pull(uint64_t ns, bool sda, bool scl)
{
    bool moved = sda != master_sda;

    /* What the sensor still had to do comes first, and its answer last. */
    settle(ns, false);
    settle(ns, false);
    master_sda = sda;
    master_scl = scl;
    settle(ns, moved);
    settle(ns, false);
    checker_clock(ns, master_scl, scl_high, sensor_stretches() && stretch_ns < PATIENCE_NS);
}

bool lines_sda(void)
{
    return sda_high;
}

bool lines_scl(void)
{
    return scl_high;
}

bool lines_calm(void)
{
    return sensor_is_calm() && sda_high == !(master_sda || sensor_pulls_sda()) &&
           scl_high == !(master_scl || sensor_pulls_scl());
}

void lines_stretch(uint64_t ns)
{
    stretch_ns = ns;
    sensor_stretch(ns);
}

void lines_driven_high(uint64_t ns, const char *line)
{
    static bool said;
    char violation[40];

    if (!said) {
        said = true;
        snprintf(violation, sizeof violation, "%s is driven high", line);
        checker_violation(ns, violation);
    }
}
