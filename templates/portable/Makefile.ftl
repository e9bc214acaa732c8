# SPDX-License-Identifier: 0BSD
#
# ${project}, for ${title}. Written by ullage from a loop file.
#
#   make          build/firmware.elf and .hex, .map, and a .su file (stack) for each source
#   make size     flash and static RAM used, of what the part has
#   make check    runs the portable part on this computer against what it should do
#   make play TRACE=readings.csv    plays a recorded trace and prints when the alarm changes
#   make flash                      writes the firmware to the part: see below
<#if small != "">
#   make small    the same sources as one unit: smaller, and not what the estimate is for
</#if>
#   make clean

PART := ${target}
FLASH_BYTES := ${flash}
RAM_BYTES := ${ram}

CC := ${tools}gcc
OBJCOPY := ${tools}objcopy
SIZE := ${tools}size

# The estimate is for these flags.
CORE := ${core}
CFLAGS := ${flags}
WARNINGS := ${warnings}
LDFLAGS := ${link}
LIBRARIES := ${libraries}

# More flags from the command line, for example EXTRA=-Werror.
EXTRA :=

SOURCES := \
<#list sources as source>
	${source} \
</#list>
	$(wildcard yours/*.c)

OBJECTS := $(SOURCES:%.c=build/%.o)
HEADERS := $(wildcard src/*.h bus/*.h port/*.h yours/*.h)

all: build/firmware.elf build/firmware.hex

# Writes a .su file: the stack that each function uses.
STACK_USAGE := -fstack-usage
<#list naked as source>
# The compiler cannot tell it for a handler that is written by hand, and would warn.
build/${source?remove_ending(".c")}.o: STACK_USAGE :=
</#list>

build/%.o: %.c $(HEADERS) Makefile
	@mkdir -p $(@D)
	$(CC) $(CORE) $(CFLAGS) $(WARNINGS) $(EXTRA) $(STACK_USAGE) -c $< -o $@

build/firmware.elf: $(OBJECTS)
	$(CC) $(CORE) $(CFLAGS) $(LDFLAGS) -Wl,-Map=build/firmware.map $(OBJECTS) $(LIBRARIES) -o $@

%.hex: %.elf
	$(OBJCOPY) -O ihex -R .eeprom $< $@

# First values of variables take flash as well as RAM.
PRINT_SIZE = $(SIZE) -A $(1) | awk ' \
	/^\.(boot|start|text|rodata|data) / { flash += $$2 } \
	/^\.(data|bss|noinit) / { ram += $$2 } \
	END { printf "flash %d of $(FLASH_BYTES) bytes, static RAM %d of $(RAM_BYTES) bytes\n", flash, ram; \
	exit flash > $(FLASH_BYTES) || ram > $(RAM_BYTES) }'

size: build/firmware.elf
	@$(call PRINT_SIZE,build/firmware.elf)

<#if small != "">
# One unit, so that the compiler sees all calls.
build/small.c: $(SOURCES)
	@mkdir -p $(@D)
	@for source in $(SOURCES); do echo "#include \"../$$source\""; done > $@

build/small.elf: build/small.c $(HEADERS) Makefile
	$(CC) $(CORE) $(CFLAGS) $(WARNINGS) $(EXTRA) ${small} -fwhole-program $(LDFLAGS) $< $(LIBRARIES) -o $@

small: build/small.elf build/small.hex
	@$(call PRINT_SIZE,build/small.elf)

</#if>
# The checks: the portable sources, with a fake port in the place of port/.

HOST_CC := cc
HOST_CFLAGS := -std=c99 -O1 -g -Wall -Wextra -fsanitize=address,undefined -fno-sanitize-recover=all
HOST_SOURCES := src/main.c \
<#list portable as source>
	${source} \
</#list>
	check/world.c check/sensor.c check/expected.c
HOST_OBJECTS := $(HOST_SOURCES:%.c=build/host/%.o)
SEEDS := 1 2 3 4 5 6 7 8

build/host/src/main.o: HOST_DEFINE := -Dmain=firmware_main

build/host/%.o: %.c $(HEADERS) $(wildcard check/*.h) Makefile
	@mkdir -p $(@D)
	$(HOST_CC) $(HOST_CFLAGS) $(EXTRA) -include check/fake.h $(HOST_DEFINE) -c $< -o $@

build/check build/play: build/%: build/host/check/%.o $(HOST_OBJECTS)
	$(HOST_CC) $(HOST_CFLAGS) $^ -lm -o $@

check: build/check build/play
	@for seed in $(SEEDS); do build/check $$seed || exit 1; done

play: build/play
	@$< $(TRACE) $(LIMIT)

${flash_rules}
clean:
	rm -rf build

.PHONY: all size<#if small != ""> small</#if> check play flash clean
.DELETE_ON_ERROR:
