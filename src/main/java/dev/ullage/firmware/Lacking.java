package dev.ullage.firmware;

/** Thrown inside the planner where a target does not have what the loop needs. */
final class Lacking extends RuntimeException {
  private static final long serialVersionUID = 1;

  private final transient Lack lack;

  Lacking(String resource, String reason) {
    super(reason, null, false, false);
    lack = new Lack(resource, reason);
  }

  Lack lack() {
    return lack;
  }
}
