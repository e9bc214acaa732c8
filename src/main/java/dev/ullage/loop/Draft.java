package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What a loop file says, key by key, before it becomes a {@link Loop}. */
final class Draft {
  /** Where something stands, both from 1. */
  record Place(int line, int column) {}

  private final Map<String, Object> values = new HashMap<>();
  private final Map<String, Place> places = new HashMap<>();

  void place(String key, int line, int column) {
    places.put(key, new Place(line, column));
  }

  void put(String key, Object value) {
    values.put(key, value);
  }

  /** True if the file itself has the key, right or wrong. */
  boolean writes(String key) {
    return places.containsKey(key);
  }

  /** Where the key stands, or else the group that it would stand in. */
  Place placeOf(String key) {
    String at = key;
    while (!places.containsKey(at) && at.contains(".")) {
      at = at.substring(0, at.lastIndexOf('.'));
    }
    return places.getOrDefault(at, new Place(1, 1));
  }

  /** True if there is a value, or a group that was given. */
  boolean has(String key) {
    return values.containsKey(key);
  }

  long whole(String key) {
    return (Long) values.get(key);
  }

  int count(String key) {
    return Math.toIntExact(whole(key));
  }

  BigDecimal decimal(String key) {
    return (BigDecimal) values.get(key);
  }

  boolean flag(String key) {
    return (Boolean) values.get(key);
  }

  String text(String key) {
    return (String) values.get(key);
  }

  <E extends Enum<E>> E word(String key, Class<E> type) {
    return LoopWords.read(text(key), type);
  }

  List<Integer> bytes(String key) {
    return ((List<?>) values.get(key)).stream().map(Integer.class::cast).toList();
  }
}
