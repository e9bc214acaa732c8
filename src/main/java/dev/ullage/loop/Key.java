package dev.ullage.loop;

import java.util.Optional;

/**
 * One key of the loop file: what the reader accepts, what the printer explains and what the schema
 * publishes.
 *
 * @param standard what holds where the key is left out, in the form that the shape names; empty
 *     where there is then nothing
 * @param about what it means, with its unit; a comment in the explained file
 */
record Key(String name, Shape shape, boolean required, Optional<Object> standard, String about) {

  static Key required(String name, Shape shape, String about) {
    return new Key(name, shape, true, Optional.empty(), about);
  }

  /** A key that may be left out, and then stands for nothing. */
  static Key optional(String name, Shape shape, String about) {
    return new Key(name, shape, false, Optional.empty(), about);
  }

  static Key standard(String name, Shape shape, Object standard, String about) {
    return new Key(name, shape, false, Optional.of(standard), about);
  }

  /** A group that may be left out, and then holds the standard value of each of its keys. */
  static Key group(String name, String about, Key... keys) {
    return new Key(name, Keys.groupOf(keys), false, Optional.of("{}"), about);
  }

  /** True for a group whose keys have their standard values even where it is left out. */
  boolean alwaysThere() {
    return shape instanceof Shape.Group && (required || standard.isPresent());
  }
}
