package tepidarium.alert.notify.channel;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * An SMTP server to hand e-mail to.
 *
 * @param user name to log in, or null to send without
 * @param password password to log in, or null
 * @param from the sender's address
 * @param certificatePem certificates, PEM, that are trusted in place of the usual authorities; null
 *     for those
 */
public record MailServer(
    String host,
    int port,
    Tls tls,
    @Nullable String user,
    @Nullable String password,
    String from,
    @Nullable String certificatePem) {

  /** How the conversation is encrypted. */
  public enum Tls {
    /** Begins in the clear and must change over before anything is said (RFC 3207). */
    STARTTLS,
    /** Encrypted from the first byte (RFC 8314). */
    IMPLICIT,
    /** Not at all: for a server on this machine or in a network that is trusted. */
    NONE;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** Without the password. */
  @Override
  public String toString() {
    return host + ':' + port + " (" + tls.key() + ')';
  }
}
