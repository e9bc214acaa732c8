package dev.ullage.target;

import java.util.Map;

/** Sleep: what the templates want to know of it. */
public record Sleep(Map<String, String> registers) {
  public Sleep {
    registers = Map.copyOf(registers);
  }
}
