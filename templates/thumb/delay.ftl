    __asm__ volatile("1: subs %0, #1\n\tbne 1b" : "+l"(turns) : : "cc");
