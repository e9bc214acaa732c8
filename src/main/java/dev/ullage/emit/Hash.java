package dev.ullage.emit;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 over bytes, as 64 small hexadecimal digits. */
final class Hash {
  private Hash() {}

  static String of(byte[] bytes) {
    return HexFormat.of().formatHex(sha256().digest(bytes));
  }

  static String of(InputStream bytes) throws IOException {
    MessageDigest digest = sha256();
    byte[] part = new byte[1 << 16];
    for (int length = bytes.read(part); length >= 0; length = bytes.read(part)) {
      digest.update(part, 0, length);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256.", e);
    }
  }
}
