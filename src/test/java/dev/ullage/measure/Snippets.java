package dev.ullage.measure;

/** Small sources with everything that the walk has to understand. */
final class Snippets {
  private Snippets() {}

  /** Frames of several kinds, tail calls, arguments on the stack, data of each kind, helpers. */
  static final String WORKER =
      """
      #include <stdint.h>
      #include <avr/interrupt.h>
      #include <avr/eeprom.h>
      #include <avr/pgmspace.h>
      volatile uint8_t sink;
      uint8_t seed = 3;
      static uint16_t window[8];
      const uint8_t table[5] = {1, 2, 3, 4, 5};
      const uint8_t steps[6] PROGMEM = {9, 8, 7, 6, 5, 4};
      uint8_t EEMEM kept[7];
      uint8_t fill(uint8_t *to);
      int16_t other(int16_t value);
      int16_t many(int16_t a, int16_t b, int16_t c, int16_t d, int16_t e, int16_t f, int16_t g,
                   int16_t h, int16_t i, int16_t j);

      int16_t hand_over(int16_t value) { return other(value + 1); }

      __attribute__((noinline)) static uint16_t weigh(uint16_t a, uint16_t b) {
        return a * b + table[a & 3] + pgm_read_byte(&steps[b & 3]);
      }

      uint16_t large_frame(uint8_t n) {
        uint8_t bytes[70];
        for (uint8_t i = 0; i < n; i++) bytes[i] = i;
        return fill(bytes) + weigh(n, seed);
      }

      uint16_t small_frame(uint8_t n) {
        uint8_t bytes[2];
        bytes[0] = n;
        return fill(bytes);
      }

      uint16_t odd_frame(uint8_t n) {
        volatile uint8_t bytes[5];
        bytes[0] = n;
        return bytes[0];
      }

      uint32_t divide(uint32_t a, uint32_t b) { return a / b + window[a & 7]; }

      int16_t call_many(void) { return many(1, 2, 3, 4, 5, 6, 7, 8, 9, 10) + 1; }

      uint8_t never_called(void) { return eeprom_read_byte(&kept[2]); }

      ISR(TIMER0_COMPA_vect) {
        sink++;
        window[0] = weigh(sink, 3);
      }
      """;

  /** The other half, with {@code main}. */
  static final String MAIN =
      """
      #include <stdint.h>
      #include <avr/interrupt.h>
      extern volatile uint8_t sink;
      int16_t hand_over(int16_t value);
      uint16_t large_frame(uint8_t n);
      uint16_t small_frame(uint8_t n);
      uint16_t odd_frame(uint8_t n);
      uint32_t divide(uint32_t a, uint32_t b);
      int16_t call_many(void);
      uint8_t fill(uint8_t *to) { to[1] = sink; return sink; }
      int16_t other(int16_t value) { return value / (int16_t) (sink + 1); }
      int16_t many(int16_t a, int16_t b, int16_t c, int16_t d, int16_t e, int16_t f, int16_t g,
                   int16_t h, int16_t i, int16_t j) {
        return a + b + c + d + e + f + g + h + i * j + sink;
      }
      int main(void) {
        sei();
        for (;;) {
          sink += hand_over(sink) + large_frame(60) + small_frame(2) + odd_frame(sink);
          sink += divide(sink, 3) + call_many();
        }
      }
      """;
}
