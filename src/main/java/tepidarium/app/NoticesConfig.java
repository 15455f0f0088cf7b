package tepidarium.app;

import java.net.URI;
import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.NoticeSettings;
import tepidarium.alert.notify.Units;
import tepidarium.alert.notify.channel.MailServer;

/**
 * The checked section {@code notices} of the settings: who gets notices, how and when.
 *
 * @param publicUrl address of the pages from outside, without a slash at its end; null for notices
 *     without a link
 * @param email receivers of e-mail; null for none
 * @param webhook receiver of HTTP requests; null for none
 * @param heartbeat null for none
 * @param rules when notices are sent
 * @param limits limits beyond which the service reports trouble of its own
 */
public record NoticesConfig(
    @Nullable String publicUrl,
    Units units,
    @Nullable Email email,
    @Nullable Webhook webhook,
    @Nullable Heartbeat heartbeat,
    NoticeSettings rules,
    SelfMonitor.Limits limits) {

  /**
   * The mail server, the receivers, and the receiver of alerts that nobody acknowledges; null for
   * none.
   */
  public record Email(MailServer server, List<String> to, @Nullable String escalateTo) {}

  /** A web address to which the service posts each notice. */
  public record Webhook(URI url, @Nullable String secret) {
    @Override
    public String toString() {
      return "Webhook[" + url.getHost() + ']';
    }
  }

  /** A web address that the service calls at regular intervals to show that it runs. */
  public record Heartbeat(URI url, Duration every) {
    @Override
    public String toString() {
      return "Heartbeat[" + url.getHost() + ']';
    }
  }
}
