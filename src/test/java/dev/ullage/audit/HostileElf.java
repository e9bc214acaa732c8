package dev.ullage.audit;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Writes ELF files byte by byte, sensible or not: 32 bits, the lowest byte first. */
final class HostileElf {
  static final int PROGBITS = 1;
  static final int SYMTAB = 2;
  static final int STRTAB = 3;
  static final int NOBITS = 8;
  static final int ALLOC = 2;
  static final int CODE = 6;

  private record Header(
      int name, int type, int flags, int address, int offset, int size, int link) {}

  private final int machine;
  private final ByteBuffer body;
  private final StringBuilder names = new StringBuilder("\0");
  private final List<Header> headers = new ArrayList<>();

  HostileElf(int machine, int room) {
    this.machine = machine;
    this.body = ByteBuffer.allocate(room).order(ByteOrder.LITTLE_ENDIAN).position(52);
    headers.add(new Header(0, 0, 0, 0, 0, 0, 0));
  }

  /** Adds a section with these bytes. */
  HostileElf section(String name, int type, int flags, int address, byte[] bytes, int link) {
    int at = body.position();
    body.put(bytes);
    return section(name, type, flags, address, at, bytes.length, link);
  }

  /** Adds a section that says where its bytes are, whether there are any or not. */
  HostileElf section(
      String name, int type, int flags, int address, int offset, int size, int link) {
    headers.add(new Header(names.length(), type, flags, address, offset, size, link));
    names.append(name).append('\0');
    return this;
  }

  /** One row of a symbol table: a function that everybody sees. */
  static byte[] symbols(int count, int nameStep, int valueStep, int size) {
    ByteBuffer rows = ByteBuffer.allocate(count * 16).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < count; i++) {
      rows.putInt(1 + i * nameStep).putInt(i * valueStep).putInt(size);
      rows.put((byte) 0x12).put((byte) 0).putShort((short) 1);
    }
    return rows.array();
  }

  byte[] bytes() {
    int table = body.position();
    byte[] text = names.append(".names\0").toString().getBytes(StandardCharsets.ISO_8859_1);
    headers.add(new Header(text.length - 7, STRTAB, 0, 0, table, text.length, 0));
    body.put(text);
    int start = body.position();
    for (Header each : headers) {
      body.putInt(each.name()).putInt(each.type()).putInt(each.flags()).putInt(each.address());
      body.putInt(each.offset()).putInt(each.size()).putInt(each.link()).putInt(0).putInt(1);
      body.putInt(each.type() == SYMTAB ? 16 : 0);
    }
    int end = body.position();
    body.position(0);
    body.put(new byte[] {0x7F, 'E', 'L', 'F', 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0});
    body.putShort((short) 2).putShort((short) machine).putInt(1).putInt(0).putInt(0);
    body.putInt(start).putInt(5).putShort((short) 52).putShort((short) 32).putShort((short) 0);
    body.putShort((short) 40).putShort((short) headers.size());
    body.putShort((short) (headers.size() - 1));
    return java.util.Arrays.copyOf(body.array(), end);
  }
}
