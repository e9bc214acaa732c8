package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.audit.Growth.How;
import dev.ullage.measure.Symbol.Kind;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class GrowthTest {
  private static final Piece MAIN = new Piece("main", "src/main.o", Kind.CODE, 40, "11111111");
  private static final Piece DRAW = new Piece("draw", "src/menu.o", Kind.CODE, 64, "22222222");
  private static final Piece PAGE = new Piece("page", "src/menu.o", Kind.BSS, 6, "");
  private static final Piece FIRST = new Piece("first", "src/menu.o", Kind.DATA, 3, "33333333");

  private static Measured measured(Piece... pieces) {
    Figures figures =
        new Figures(
            0,
            Figures.sum(List.of(pieces), Kind.CODE),
            0,
            Figures.sum(List.of(pieces), Kind.DATA),
            Figures.sum(List.of(pieces), Kind.BSS),
            0,
            0,
            true);
    return new Measured(
        "a.elf",
        Optional.empty(),
        Optional.of("a compiler"),
        figures,
        Stack.bound(20, List.of()),
        List.of(pieces),
        List.of(),
        Map.of(),
        Capacity.UNKNOWN,
        List.of());
  }

  private static Growth growth(Measured before, Measured now) {
    return Growth.between(Baseline.of(before), now);
  }

  @Test
  void nothingNew_isNoGrowth() {
    Growth growth = growth(measured(MAIN, DRAW, PAGE), measured(PAGE, DRAW, MAIN));
    assertEquals(new Growth(0, 0, OptionalInt.of(0), List.of(), ""), growth);
  }

  @Test
  void newPieces_countForBothMemories() {
    Growth growth = growth(measured(MAIN), measured(MAIN, FIRST, PAGE));
    assertEquals(3, growth.flash(), "the first value");
    assertEquals(9, growth.ram());
    assertEquals(new Measured.Share(3, 9), growth.modules().get("menu"));
    assertEquals(new Measured.Share(3, 9), growth.objects().get("src/menu.o"));
  }

  @Test
  void move_isNoGrowthAndIsSeen() {
    Piece moved = new Piece("draw", "src/screen.o", Kind.CODE, 64, "22222222");
    Growth growth = growth(measured(MAIN, DRAW), measured(MAIN, moved));
    assertEquals(0, growth.flash());
    assertEquals(
        List.of(new Growth.Change(How.MOVED, moved, "src/menu.o", 0, 0)), growth.changes());
    assertTrue(growth.modules().isEmpty());
  }

  @Test
  void renaming_isNoGrowthAndIsSeen() {
    Piece renamed = new Piece("paint", "src/screen.o", Kind.CODE, 64, "22222222");
    Growth growth = growth(measured(MAIN, DRAW), measured(MAIN, renamed));
    assertEquals(List.of(new Growth.Change(How.RENAMED, renamed, "draw", 0, 0)), growth.changes());
    Piece variable = new Piece("leaf", "src/menu.o", Kind.BSS, 6, "");
    assertEquals(How.RENAMED, growth(measured(PAGE), measured(variable)).changes().get(0).how());
  }

  @Test
  void otherCodeOfTheSameSizeElsewhere_isNoRenaming() {
    Piece other = new Piece("paint", "src/screen.o", Kind.CODE, 64, "99999999");
    List<How> hows =
        growth(measured(DRAW), measured(other)).changes().stream().map(c -> c.how()).toList();
    assertEquals(2, hows.size());
    assertTrue(hows.contains(How.NEW) && hows.contains(How.GONE));
  }

  @Test
  void whatIsGone_countsAgainst() {
    Growth growth = growth(measured(MAIN, DRAW, PAGE), measured(MAIN));
    assertEquals(-64, growth.flash());
    assertEquals(-6, growth.ram());
  }

  @Test
  void otherCompiler_isNamed() {
    Baseline before = new Baseline("an older compiler", OptionalInt.of(12), List.of(MAIN));
    Growth growth = Growth.between(before, measured(MAIN));
    assertEquals("an older compiler", growth.otherCompiler());
    assertEquals(OptionalInt.of(8), growth.stack());
  }
}
