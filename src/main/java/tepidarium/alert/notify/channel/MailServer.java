package tepidarium.alert.notify.channel;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The address and login of an SMTP server.
 *
 * @param user name to log in, or null to send without
 * @param password password to log in, or null
 * @param from the sender's address
 * @param certificatePem trusted certificates in PEM format; null for Java's default authorities
 */
public record MailServer(
    String host,
    int port,
    Tls tls,
    @Nullable String user,
    @Nullable String password,
    String from,
    @Nullable String certificatePem) {

  /** The encryption of the connection. */
  public enum Tls {
    /** STARTTLS: starts unencrypted and must switch to TLS before any command (RFC 3207). */
    STARTTLS,
    /** Encrypted from the first byte (RFC 8314). */
    IMPLICIT,
    /** No encryption; for a server on this machine or in a trusted network. */
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
