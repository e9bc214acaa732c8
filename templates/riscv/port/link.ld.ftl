<#assign kept = settings_bytes?? && has.settings??>
/*
 * Where everything goes, for ${project}, on ${title}.
 *
 * Sections are sorted by alignment, then by name: so what a program takes
 * is the sum of its parts, in whatever order they are linked.
 */
ENTRY(vectors)

MEMORY
{
    flash (rx) : ORIGIN = ${flash_origin}, LENGTH = ${flash_bytes}<#if kept> - ${settings_bytes}</#if>
<#if kept>
    settings (r) : ORIGIN = ${flash_origin} + ${flash_bytes} - ${settings_bytes}, LENGTH = ${settings_bytes}
</#if>
    ram (rwx) : ORIGIN = ${ram_origin}, LENGTH = ${ram_bytes}
}

link_stack_top = ORIGIN(ram) + LENGTH(ram);

/* One instruction reaches 2 KiB to either side of it: all variables, in most programs. */
__global_pointer$ = ORIGIN(ram) + 0x400;

SECTIONS
{
<#if boot_bytes??>
    /* Read by what is built into the part, before anything here runs. */
    .boot : { KEEP(*(.boot)) . = ${boot_bytes}; } > flash

</#if>
    .start : { KEEP(*(.vectors)) *(.text.start .text.unexpected) . = ALIGN(4); } > flash

    .text : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.text*)))
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.rodata*)))
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.srodata*)))
        . = ALIGN(4);
    } > flash

    /* First values lie behind the code, and are copied by the start-up. */
    .data : ALIGN(4)
    {
        link_data_start = .;
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.data*)))
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.sdata*)))
        . = ALIGN(4);
        link_data_end = .;
    } > ram AT > flash
    link_data_load = LOADADDR(.data);

    .bss (NOLOAD) : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.bss*)))
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.sbss*)))
        . = ALIGN(4);
        link_bss_end = .;
    } > ram
<#if kept>

    /* Written by the program itself, and no part of what is loaded. */
    .settings (NOLOAD) : { KEEP(*(.settings)) } > settings
</#if>

    /DISCARD/ : { *(.eh_frame*) }
}
