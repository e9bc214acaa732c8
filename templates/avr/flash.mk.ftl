# Any programmer that avrdude knows: see `avrdude -c ?`. PORT is only needed for some.
FLASH_TOOL := avrdude
PROGRAMMER :=
PORT :=

flash: build/firmware.hex
	@test -n "$(PROGRAMMER)" || { echo "Say which programmer: make flash PROGRAMMER=name"; exit 1; }
	$(FLASH_TOOL) -p $(PART) -c $(PROGRAMMER) $(if $(PORT),-P $(PORT)) -U flash:w:$<:i
