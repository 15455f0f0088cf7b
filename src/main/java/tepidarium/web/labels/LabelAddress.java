package tepidarium.web.labels;

import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * The address of the pages in the codes of labels.
 *
 * @param url without a slash at its end
 */
record LabelAddress(String url) {
  /** Names and addresses that mean the device that opens them. */
  private static final Pattern LOOPBACK =
      Pattern.compile("(.*\\.)?localhost\\.?|127(\\.\\d+){3}|0\\.0\\.0\\.0|\\[::1?]");

  /**
   * The address from outside, or the one under which the page was opened.
   *
   * @param publicUrl the setting {@code notices.publicUrl}; null if it is not set
   * @param scheme scheme of the request
   * @param host host and port of the request; null if it names none
   */
  static LabelAddress of(@Nullable String publicUrl, String scheme, @Nullable String host) {
    String asked = scheme + "://" + (host == null ? "localhost" : host);
    return new LabelAddress(publicUrl == null ? asked : publicUrl);
  }

  /** Whether no other device can open it. */
  boolean isLoopback() {
    String host = URI.create(url).getHost();
    return host != null && LOOPBACK.matcher(host.toLowerCase(Locale.ROOT)).matches();
  }

  /** The page that opens the check of a container. */
  String check(ContainerId container) {
    return url
        + "/tally.html?container="
        + URLEncoder.encode(container.value(), StandardCharsets.UTF_8);
  }
}
