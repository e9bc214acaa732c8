package dev.ullage.benchmark;

/** The Java program that does nothing: what every start costs. */
final class Empty {
  private Empty() {}

  public static void main(String[] args) {}
}
