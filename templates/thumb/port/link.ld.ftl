<#assign kept = settings_bytes?? && has.settings?? runs = kept && ram_code?? copied = runs?then(".ramcode", ".data")>
<#macro part segment><#if runs> :${segment}</#if></#macro>
/*
 * Where everything goes, for ${project}, on ${title}.
 *
 * Sections are sorted by alignment, then by name: so what a program takes
 * is the sum of its parts, in whatever order they are linked.
 */
ENTRY(start)

MEMORY
{
    flash (rx) : ORIGIN = ${flash_origin}, LENGTH = ${flash_bytes}<#if kept> - ${settings_bytes}</#if>
<#if kept>
    settings (r) : ORIGIN = ${settings_origin!flash_origin} + ${flash_bytes} - ${settings_bytes}, LENGTH = ${settings_bytes}
</#if>
    ram (rwx) : ORIGIN = ${ram_origin}, LENGTH = ${ram_bytes}
}

link_stack_top = ORIGIN(ram) + LENGTH(ram)<#if rom_bytes??> - SIZEOF(.top)</#if>;
<#if vector_sum??>

/* The boot ROM wants it: the first eight vectors add up to zero. Addresses of routines are odd there. */
link_vector_sum = 0 - (link_stack_top + start + 1 + 5 * (unexpected + 1));
</#if>
<#if runs>

/* Else one segment would be there to be written and to be run. */
PHDRS
{
    program PT_LOAD;
    ramcode PT_LOAD;
    variables PT_LOAD;
}
</#if>

SECTIONS
{
<#if boot_bytes??>
    /* Read by what is built into the part, before anything here runs. */
    .boot : { KEEP(*(.boot)) . = ${boot_bytes}; } > flash<@part "program"/>

</#if>
    .start : { KEEP(*(.vectors)) *(.text.start .text.unexpected) . = ALIGN(4); } > flash<@part "program"/>

    .text : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.text*)))
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.rodata*)))
        . = ALIGN(4);
    } > flash

<#if runs>
    /* Runs while the flash cannot be read; copied like the first values, which lie behind it. */
    .ramcode : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.ramcode*)))
        . = ALIGN(4);
    } > ram AT > flash<@part "ramcode"/>

</#if>
    /* First values lie behind the code, and are copied by the start-up. */
    .data : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.data*)))
        . = ALIGN(4);
        link_data_end = .;
    } > ram AT > flash<@part "variables"/>
    link_data_start = ADDR(${copied});
    link_data_load = LOADADDR(${copied});

<#if rom_bytes??>
    /* A routine in ROM works here while it writes the flash, if this program calls it. */
    .top ORIGIN(ram) + LENGTH(ram) - ${rom_bytes} (NOLOAD) : { *(.bss.top) } > ram

</#if>
    .bss <#if rom_bytes??>link_data_end </#if>(NOLOAD) : ALIGN(4)
    {
        *(SORT_BY_ALIGNMENT(SORT_BY_NAME(.bss*)))
        . = ALIGN(4);
        link_bss_end = .;
    } > ram<@part "variables"/>
<#if kept>

    /* Written by the program itself, and no part of what is loaded. */
    .settings (NOLOAD) : { KEEP(*(.settings)) } > settings<@part "NONE"/>
</#if>

    /DISCARD/ : { *(.ARM.exidx* .ARM.extab* .ARM.attributes .eh_frame*) }
}
