    __asm__ volatile("1: addi %0, %0, -1\n\tbnez %0, 1b" : "+r"(turns));
