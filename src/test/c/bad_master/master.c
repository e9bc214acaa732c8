/*
 * A two-wire master for an ATtiny85 at 16 MHz that keeps every rule of the bus in Standard-mode but the
 * one that it is told to break, so that the bus checker can be seen to notice.
 */
#define F_CPU 16000000UL

#include <avr/io.h>
#include <stdbool.h>
#include <stdint.h>
#include <util/delay.h>

#define SDA (1 << PB1)
#define SCL (1 << PB2)
#define TO_SENSOR 0x90
#define FROM_SENSOR 0x91

/* Microseconds, each a little above the least that is allowed. */
#ifndef LOW
#define LOW 6
#endif
#ifndef HIGH
#define HIGH 5
#endif
#ifndef START_HOLD
#define START_HOLD 5
#endif
#ifndef START_SET_UP
#define START_SET_UP 6
#endif
#ifndef STOP_SET_UP
#define STOP_SET_UP 5
#endif
/* The bit of a byte that is moved while the clock is high. */
#ifndef MOVE_DATA
#define MOVE_DATA 0
#endif
#ifndef FREE
#define FREE 8
#endif

static void line(uint8_t mask, bool high, bool push_pull)
{
    if (push_pull) {
        DDRB |= mask;
        PORTB = high ? PORTB | mask : PORTB & (uint8_t)~mask;
    } else if (high) {
        DDRB &= (uint8_t)~mask;
    } else {
        DDRB |= mask;
    }
}

static void sda(bool high)
{
#ifdef PUSH_PULL_SDA
    line(SDA, high, true);
#else
    line(SDA, high, false);
#endif
}

static void scl(bool high)
{
#ifdef PUSH_PULL_SCL
    line(SCL, high, true);
#else
    line(SCL, high, false);
#endif
#ifndef IGNORE_STRETCHING
    while (high && (PINB & SCL) == 0) {
    }
#endif
}

static bool bit(bool out, bool move)
{
    bool in;

#ifdef LATE_DATA
    _delay_us(LOW);
    DDRB = out ? DDRB & (uint8_t)~SDA : DDRB | SDA;
    DDRB &= (uint8_t)~SCL;
#else
    sda(out);
    _delay_us(LOW);
#endif
    scl(true);
    _delay_us(HIGH);
    in = (PINB & SDA) != 0;
    if (move) {
        /* While the clock is high, in the middle of a byte. */
        sda(!out);
        _delay_us(HIGH);
    }
    scl(false);
    return in;
}

static void put(uint8_t byte)
{
    for (uint8_t mask = 0x80; mask != 0; mask >>= 1) {
        (void)bit((byte & mask) != 0, mask == MOVE_DATA);
    }
    (void)bit(true, false);
}

static void get(bool more)
{
    for (uint8_t bits = 8; bits != 0; bits--) {
        (void)bit(true, false);
    }
    (void)bit(!more, false);
}

static void start(bool again)
{
    if (again) {
        sda(true);
        _delay_us(LOW);
        scl(true);
        _delay_us(START_SET_UP);
    }
    sda(false);
    _delay_us(START_HOLD);
    scl(false);
}

static void stop(void)
{
#ifdef NO_STOP
    sda(true);
#else
    sda(false);
#endif
    _delay_us(LOW);
    scl(true);
    _delay_us(STOP_SET_UP);
    sda(true);
    _delay_us(FREE);
}

int main(void)
{
    for (;;) {
        start(false);
#ifndef NOTHING_BETWEEN
        put(TO_SENSOR);
        put(0);
        start(true);
        put(FROM_SENSOR);
        get(true);
        get(false);
#endif
        stop();
        /* A second transaction as soon as that is allowed. */
        start(false);
        put(TO_SENSOR);
        stop();
        _delay_ms(50);
    }
}
