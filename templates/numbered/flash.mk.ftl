# With a debug probe that OpenOCD knows: PROBE is its interface file, CHIP the part's target file.
FLASH_TOOL := openocd
PROBE :=
CHIP :=

flash: build/firmware.elf
	@test -n "$(PROBE)" -a -n "$(CHIP)" || { echo "Say which probe and which chip: make flash PROBE=interface/cmsis-dap.cfg CHIP=target/file.cfg"; exit 1; }
	$(FLASH_TOOL) -f $(PROBE) -f $(CHIP) -c "program $< verify reset exit"
