#include "bus_checker.h"

#include <inttypes.h>
#include <stdio.h>

/* A master that falls silent for so long has forgotten its STOP. */
#define SILENCE_NS 20000000u
#define CLOCKS_OF_A_BYTE 9
/* A clock that others hold for so long ends the transaction: SMBus 3.2, tTIMEOUT, its least value. */
#define ABANDONED_NS 25000000u

/* Parameters of the I2C-bus specification UM10204, "Characteristics of the SDA and SCL bus lines". */
enum { T_LOW, T_HIGH, T_HD_STA, T_SU_STA, T_SU_STO, T_SU_DAT, T_BUF, T_PERIOD, TIMES };
static const char *const names[TIMES] = {"tLOW",    "tHIGH",   "tHD;STA", "tSU;STA",
                                         "tSU;STO", "tSU;DAT", "tBUF",    "period"};

static uint64_t least[TIMES];
static bool sda = true, scl = true, in_transaction, silent_said, master_holds;
static unsigned falls;
static uint64_t scl_rose, scl_fell, sda_moved, started, stopped, last_edge;

void checker_violation(uint64_t ns, const char *rule)
{
    printf("violation %" PRIu64 " %s\n", ns / 1000, rule);
}

static void note(int time, uint64_t since, uint64_t ns)
{
    if (since != 0 && (least[time] == 0 || ns - since < least[time])) {
        least[time] = ns - since;
    }
}

/* START and STOP belong between bytes; the first fall of the clock is that of START. */
static bool between_bytes(void)
{
    return falls == 0 || (falls - 1) % CLOCKS_OF_A_BYTE == 0;
}

static void condition(uint64_t ns, bool stop, bool by_master)
{
    if (!by_master) {
        /* Between transactions it is the script that does so. */
        if (in_transaction) {
            checker_violation(ns, "the sensor moved SDA while SCL was high");
        }
        return;
    }
    if (in_transaction && !between_bytes()) {
        checker_violation(ns, stop ? "STOP within a byte" : "START within a byte");
    } else if (in_transaction && falls <= 1 && stop) {
        /* "An illegal format", says UM10204, "START and STOP conditions". */
        checker_violation(ns, "START and STOP with nothing between");
    }
    if (stop) {
        note(T_SU_STO, scl_rose, ns);
        stopped = ns;
    } else {
        if (in_transaction) {
            note(T_SU_STA, scl_rose, ns);
        } else {
            note(T_BUF, stopped, ns);
        }
        started = ns;
    }
    in_transaction = !stop;
    falls = 0;
}

static void clock_moved(uint64_t ns, bool high, bool by_master)
{
    if (high) {
        note(T_LOW, scl_fell, ns);
        if (scl_rose != 0 && scl_fell > scl_rose && falls > 1) {
            note(T_PERIOD, scl_rose, ns);
        }
        if (by_master && in_transaction) {
            note(T_SU_DAT, sda_moved, ns);
        }
        scl_rose = ns;
        return;
    }
    if (in_transaction && falls == 0) {
        note(T_HD_STA, started, ns);
    } else {
        note(T_HIGH, scl_rose, ns);
    }
    scl_fell = ns;
    ++falls;
}

void checker_see(uint64_t ns, bool new_sda, bool new_scl, bool by_master)
{
    static bool moved_by_master;

    if (new_sda != sda) {
        if (scl && new_scl) {
            condition(ns, new_sda, by_master);
        }
        sda_moved = ns;
        moved_by_master = by_master;
    }
    if (new_scl != scl) {
        clock_moved(ns, new_scl, moved_by_master);
    }
    if (new_sda != sda || new_scl != scl) {
        last_edge = ns;
        silent_said = false;
    }
    sda = new_sda;
    scl = new_scl;
}

void checker_clock(uint64_t ns, bool pulled, bool high, bool stretched)
{
    static bool let_go, rose;

    if (pulled && let_go && !rose && stretched) {
        checker_violation(ns, "clock stretching is ignored");
    }
    rose = high || (rose && !pulled);
    let_go = !pulled;
    master_holds = pulled;
}

void checker_wait(uint64_t ns)
{
    if (in_transaction && !scl && !master_holds && ns - last_edge > ABANDONED_NS) {
        in_transaction = false;
    }
    if (scl && in_transaction && !silent_said && ns - last_edge > SILENCE_NS) {
        checker_violation(ns, "missing STOP");
        silent_said = true;
    }
}

bool checker_in_transaction(void)
{
    return in_transaction;
}

void checker_print(void)
{
    for (int time = 0; time < TIMES; time++) {
        printf("least %s %" PRIu64 "\n", names[time], least[time]);
    }
}
