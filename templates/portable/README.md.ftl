# ${project}, for ${title}

<#list sentences as sentence>
${sentence}
</#list>

<#list notes as note>
- ${note?cap_first}.
</#list>

## Wiring

| pin |<#list packages as pack> number in ${pack} |</#list> leads to |
| --- |<#list packages as pack> ---: |</#list> --- |
<#list pins as wire>
| ${wire.pin} |<#list wire.numbers as number> ${number} |</#list> ${wire.to} |
</#list>
<#if padded?has_content>

The pad below ${padded?join(" and ")} goes to ground.
</#if>
<#if free?has_content>

Free for other things: ${free?join(", ")}.
</#if>

`ullage wiring` with the loop file and `-t ${target}` has the rest of it: each resistor and
transistor, what the pins must carry, the package drawn, and what to buy.

## Memory

<#if budget.grade == "listed">
Nothing was measured for a part like this one: all that is known are its ${flash} bytes of flash and
${ram} bytes of RAM. `make size` says what is used of them.
<#else>
| | bytes | of |
| --- | ---: | ---: |
| flash, likely | ${budget.figures.flashLikely} | ${flash} |
| flash, from | ${budget.figures.flashLow} | |
| flash, to | ${budget.figures.flashHigh} | |
| static RAM | ${budget.figures.ramStatic} | ${ram} |
| stack, at most | ${budget.figures.stack} | |
| RAM left | ${left} | |

The figures are ${budget.grade}. They hold for the compiler and the flags that the Makefile names.
</#if>
<#if parts?has_content>

| part | flash | static RAM |
| --- | ---: | ---: |
<#list parts as part>
| ${part.name} | ${part.flash} | ${part.ram} |
</#list>
</#if>
<#if buffers?has_content>

| buffer, part of the static RAM | bytes |
| --- | ---: |
<#list buffers as buffer>
| ${buffer.name} | ${buffer.bytes} |
</#list>
</#if>
<#if path?has_content>

| deepest path of the stack | bytes |
| --- | ---: |
<#list path as step>
| ${step.name} | ${step.bytes} |
</#list>
</#if>

## Build, flash, test

```
make                          # build/firmware.elf and .hex; needs ${needs}
make size                     # what is used of the flash and the RAM
make flash                    # writes it to the part; the Makefile says with what
make check                    # runs the portable part on this computer, with a C compiler
make play TRACE=readings.csv<#if knob> LIMIT=value</#if>    # when the alarm would have changed
```

`make check` puts the portable sources between a made-up sensor and a made-up port, plays thousands
of readings, good, bad and extreme, and compares each step with a computation that starts from the
units of the loop file. A trace for `make play` has one reading in a line: the samples in their
unit with commas between them, or `-` for a reading that failed.

Then on the part itself:

<#list bench as step>
${step?counter}. ${step}
</#list>

## Change

Numbers come from the loop file: change them there and emit again. A file that you have changed
here stays as it is, and the new text lands beside it as `NAME.new`. `yours/` is yours: it was
created once and is never written again, and each `yours/*.c` is compiled along.
These files are under the 0BSD licence: do with them what you like.

## Cautions

<#list cautions as caution>
- ${caution}
</#list>
