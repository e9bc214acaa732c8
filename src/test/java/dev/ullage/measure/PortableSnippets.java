package dev.ullage.measure;

/** Sources for machines with a link register, with everything that the walk has to understand. */
final class PortableSnippets {
  private PortableSnippets() {}

  /** Frames from nothing to many kilobytes, and every way that compilers leave a function. */
  static final String FRAMES =
      """
      #include <stdarg.h>
      #include <stdint.h>
      #define APART __attribute__((noinline, noclone))
      volatile int sink;
      int table[4] = {1, 2, 3, 4};
      APART void touch(void *at) { *(volatile char *) at = (char) sink; }
      APART int leaf(int a) { return a * 3 + sink; }
      APART int other(int a) { return leaf(a) + leaf(a + 1); }
      APART int hand_over(int a) { sink = a; return other(a + 2); }
      APART int small(void) { char bytes[6]; touch(bytes); return bytes[1]; }
      APART int medium(void) { char bytes[300]; touch(bytes); return bytes[9]; }
      APART int large(void) { char bytes[1500]; touch(bytes); return bytes[9]; }
      APART int huge(void) { char bytes[9000]; touch(bytes); return bytes[9] + leaf(4); }
      APART int vast(void) { static int n; char bytes[70000]; touch(bytes); return bytes[n++]; }
      APART int many(int a, int b, int c, int d, int e, int f, int g, int h, int i, int j) {
        return a + b * c + d + e * f + g + h * i + j + sink;
      }
      APART int call_many(int a) { return many(a, 2, 3, 4, 5, 6, 7, 8, 9, 10) + many(1, a, 3, 4, 5, 6, 7, 8, 9, 1); }
      APART int busy(int *p, int n) {
        int a = p[0], b = p[1], c = p[2], d = p[3], e = p[4], f = p[5], g = p[6], h = p[7];
        for (int i = 0; i < n; i++) {
          touch(p);
          a += b; b ^= c; c += d * i; d -= e; e += f; f ^= g; g += h; h += a;
        }
        return a + b + c + d + e + f + g + h;
      }
      APART int sum(int count, ...) {
        va_list list;
        int total = 0;
        va_start(list, count);
        while (count-- > 0) total += leaf(va_arg(list, int));
        va_end(list);
        return total;
      }
      APART int choose(int which, int a) {
        switch (which) {
          case 0: return leaf(a);
          case 1: return other(a) + 1;
          case 2: return small() + 2;
          case 3: return medium() * 3;
          case 4: return call_many(a) * 5;
          case 5: return hand_over(a) + 7;
          case 6: return leaf(a) ^ 9;
          case 7: sink = 3; return other(a);
          default: return 0;
        }
      }
      APART int64_t divide(int64_t a, int64_t b) { return a / b + a % 7; }
      APART int divide_short(int a, int b) { return a / b + a % (b + 1); }
      APART float scale(float a, float b) { return a * b / 3.0f + 1.0f; }
      APART int early(int a) {
        if (a < sink) return 1;
        char bytes[40];
        touch(bytes);
        return bytes[3] + leaf(a);
      }
      struct big { int words[12]; };
      APART struct big make(int a) { struct big made = {{a, a, a}}; touch(&made); return made; }
      APART int use(int a) { struct big got = make(a); return got.words[2] + make(4).words[1]; }
      int run(void) {
        int words[8] = {1, 2, 3};
        return hand_over(1) + small() + medium() + large() + huge() + vast() + call_many(2)
            + busy(words, 3) + sum(3, 1, 2, 3) + choose(sink, 4) + (int) divide(sink, 3)
            + divide_short(sink, 3) + (int) scale(sink, 2.0f) + early(3) + use(2);
      }
      """;

  static final String MAIN =
      """
      int run(void);
      extern volatile int sink;
      int main(void) { for (;;) sink = run(); }
      """;

  /** Start-up of a Cortex-M with its vector table, and of RISC-V without one. */
  static final String START =
      """
      int main(void);
      extern volatile int sink;
      int other(int a);
      #define PLAIN __attribute__((used, optimize("no-tree-loop-distribute-patterns")))
      PLAIN void *memset(void *to, int value, unsigned long count) {
        for (char *at = to; count-- > 0; ) *at++ = (char) value;
        return to;
      }
      PLAIN void *memcpy(void *to, const void *from, unsigned long count) {
        const char *in = from;
        for (char *at = to; count-- > 0; ) *at++ = *in++;
        return to;
      }
      #ifdef __arm__
      extern unsigned char stack_end[];
      void Reset(void) { main(); for (;;) {} }
      void Stop(void) { for (;;) {} }
      void Tick(void) { sink = other(sink); }
      __attribute__((section(".isr_vector"), used)) void *const vectors[] = {
        (void *) 0x20004000, (void *) Reset, (void *) Stop, (void *) Stop, 0, 0, 0, 0, 0, 0, 0,
        (void *) Stop, 0, 0, (void *) Stop, (void *) Tick};
      #else
      __attribute__((naked, used)) void Reset(void) {
        __asm__ volatile("la sp, 0x20004000\\n call main\\n 1: j 1b");
      }
      __attribute__((interrupt, used)) void Tick(void) { sink = other(sink); }
      #endif
      """;

  /** Half of a C library, for the sake of its instructions. */
  static final String LIBRARY =
      """
      #include <stdio.h>
      #include <stdlib.h>
      #include <string.h>
      #include <math.h>
      volatile int n;
      #ifdef __riscv
      static int put(char c, FILE *to) { (void) to; n = c; return c; }
      static FILE out = FDEV_SETUP_STREAM(put, NULL, NULL, _FDEV_SETUP_WRITE);
      FILE *const stdout = &out;
      FILE *const stdin = &out;
      FILE *const stderr = &out;
      #endif
      static int order(const void *a, const void *b) { return *(const char *) a - *(const char *) b; }
      int main(void) {
        char text[40];
        printf("%d %s %f %lld", n, "x", (double) n, (long long) n);
        sprintf(text, "%g", 1.5 * n);
        n = (int) strtol(text, 0, 10) + (int) (strtod(text, 0) * sin(n) + pow(n, 2.5));
        qsort(text, (size_t) n, 1, order);
        memmove(text, text + 3, (size_t) n);
        n += (int) strlen(text) + n / 7 + (int) (n / 3ull);
        for (;;) n++;
      }
      """;
}
