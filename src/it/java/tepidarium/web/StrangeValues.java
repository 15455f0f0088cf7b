package tepidarium.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Texts that a client sends in place of a name, a number or an instant, to see what breaks. */
final class StrangeValues {
  static final List<String> TEXTS =
      List.of(
          "",
          " ",
          "\u0000",
          "%zz",
          "../../records.db",
          "..%2f..%2frecords.db",
          "<img src=x onerror=alert(1)>",
          "'; DROP TABLE container; --",
          "=1+1",
          "${jndi:ldap://127.0.0.1/a}",
          "NaN",
          "-1",
          "0x7f",
          "1,1",
          "1e309",
          "1e999999999",
          "9223372036854775808",
          "9".repeat(5_000),
          "-" + "9".repeat(5_000),
          "2026-02-30T25:61:00Z",
          "+1000000000-01-01T00:00:00Z",
          "\uD800",
          "\u202Etxt.exe",
          "\uD83C\uDF31",
          "a".repeat(5_000));

  /** No text gives these parts of an address. */
  static final List<String> UNDECODABLE = List.of("%zz", "%", "%ff", "%e4");

  private StrangeValues() {}

  /** A text as a part of an address. */
  static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
