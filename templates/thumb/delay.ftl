    __asm__ volatile(".syntax unified\n1: subs %0, #1\n\tbne 1b" : "+l"(turns) : : "cc");
