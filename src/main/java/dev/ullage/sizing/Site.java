package dev.ullage.sizing;

/**
 * Where in a section an instruction is that the linker may shorten.
 *
 * @param target name of what it leads to
 * @param offset in bytes, where the count is zero
 * @param count name of a count that matters; empty for none
 * @param repeats whether it is there once for each of the count, a step behind the other; if not,
 *     it stands behind what is
 */
record Site(String target, int offset, String count, boolean repeats) {

  /** {@code 12}, {@code 12*ask} where it repeats, {@code 12+ask} where it moves. */
  String text() {
    return count.isEmpty() ? String.valueOf(offset) : offset + (repeats ? "*" : "+") + count;
  }

  static Site parse(String target, String text) {
    int mark = Math.max(text.indexOf('*'), text.indexOf('+'));
    if (mark < 0) {
      return new Site(target, Integer.parseInt(text), "", false);
    }
    return new Site(
        target,
        Integer.parseInt(text.substring(0, mark)),
        text.substring(mark + 1),
        text.charAt(mark) == '*');
  }
}
