package dev.ullage.sizing;

import dev.ullage.firmware.Module;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.HashMap;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** Hand-made cost tables of a small program, and the modules that it consists of. */
final class Tables {
  private static final Catalogue CATALOGUE = Catalogue.load();
  private final Map<String, SortedMap<String, String>> files = new HashMap<>();

  /** A program of one portable module with a helper, a bus driver with buffers, and a handler. */
  static Tables small() {
    return new Tables()
        .portable("main[]", "C main 20 1 ask@0 average_add@1 bus_start@0")
        .portable("ask[ask=yes]", "C ask 30+6*ask 2 bus_write@2", "c unused 50 3")
        .portable("average[kind=block,sum=s16]", "C average_add 40 2 __mulhi3@2 sum", "z sum 2 0")
        .portable(
            "average[kind=moving,sum=s16]",
            "C average_add 64 4 __mulhi3@2 average_window",
            "Z average_window 16 0",
            "+__do_clear_bss")
        .portable(
            "average[kind=moving,sum=s32]",
            "C average_add 84 6 __mulhi3@2 average_window",
            "Z average_window 16 0",
            "+__do_clear_bss")
        .port(
            "bus_buffered[]",
            "C bus_write 44 1 bus_sent",
            "C bus_start 10 0 bus_state",
            "C __vector_10 62 15 bus_state bus_received",
            "Z bus_sent 32 0",
            "Z bus_received 32 0",
            "D bus_state 7 0",
            "+__do_clear_bss",
            "+__do_copy_data")
        .helper("__mulhi3", "C __mulhi3 18 0 __mulhi3_tail>0")
        .helper("__mulhi3_tail", "C __mulhi3_tail 8 3")
        .helper("__do_clear_bss", "C __do_clear_bss 16 0")
        .helper("__do_copy_data", "C __do_copy_data 22 0")
        .line("start-up.avr.tsv", "attiny85", "avr25\t52\t30");
  }

  static Target target(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  static Module module(String key, Module.Scope scope, Map<String, Integer> counts) {
    String name = key.substring(0, key.indexOf('['));
    return new Module(
        name, scope, new TreeMap<>(CostRow.traits(key)), new TreeMap<>(), new TreeMap<>(counts));
  }

  static Module portable(String key) {
    return module(key, Module.Scope.PORTABLE, Map.of());
  }

  static Module port(String key) {
    return module(key, Module.Scope.PORT, Map.of());
  }

  Tables portable(String key, String... fields) {
    return line("avr25.tsv", key, String.join("\t", fields));
  }

  Tables port(String key, String... fields) {
    return line(target("attiny85").family().name() + ".avr25.tsv", key, String.join("\t", fields));
  }

  Tables helper(String key, String field) {
    return line("helpers.avr25.tsv", key, field);
  }

  Tables line(String file, String key, String fields) {
    files.computeIfAbsent(file, any -> new TreeMap<>()).put(key, fields);
    return this;
  }

  CostTables tables() {
    Map<String, String> texts = new HashMap<>();
    files.forEach((file, rows) -> texts.put(file, text(rows)));
    return CostTables.of(texts);
  }

  static String text(SortedMap<String, String> rows) {
    StringBuilder text = new StringBuilder(CostTable.title()).append("# compiler: none\n");
    rows.forEach((key, fields) -> text.append(key).append('\t').append(fields).append('\n'));
    return text.toString();
  }
}
