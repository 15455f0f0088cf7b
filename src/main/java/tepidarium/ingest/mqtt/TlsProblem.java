package tepidarium.ingest.mqtt;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.SocketException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import javax.net.ssl.SSLException;
import org.jspecify.annotations.Nullable;

/** Says in plain words why a connection with TLS to a broker fails. */
final class TlsProblem {
  private TlsProblem() {}

  /**
   * The problem and its remedy; null if it is not one of TLS.
   *
   * @param broker address of the broker
   */
  static @Nullable String words(Throwable failure, String broker) {
    SSLException tls = null;
    CertificateException certificate = null;
    for (Throwable cause = failure; cause != null; cause = cause.getCause()) {
      if (cause instanceof CertificateExpiredException) {
        return "the certificate of the broker at " + broker + " has expired: renew it there";
      }
      tls = cause instanceof SSLException found ? found : tls;
      certificate = cause instanceof CertificateException found ? found : certificate;
    }
    if (tls == null && !wasEnded(failure, broker)) {
      return null;
    }
    String detail = detail(certificate, tls, failure);
    if (detail.contains("PKIX") || detail.contains("certification path")) {
      return "the certificate of the broker at "
          + broker
          + " is not signed by an authority that the service trusts: name the certificate of its"
          + " authority in the settings (brokerTls ca)";
    }
    if (detail.contains("No subject alternative") || detail.contains("No name matching")) {
      return "the certificate of the broker at "
          + broker
          + " is for another host: use a name from the certificate in the setting broker";
    }
    if (tls == null || detail.contains("fatal alert")) {
      return "the broker at "
          + broker
          + " ended the connection with TLS ("
          + detail
          + "). If it asks for a client certificate, name one that it accepts in the settings"
          + " (brokerTls certificate and key)";
    }
    return "no connection with TLS to the broker at " + broker + ": " + detail;
  }

  private static String detail(
      @Nullable Throwable certificate, @Nullable Throwable tls, Throwable failure) {
    Throwable named = certificate != null ? certificate : tls;
    Throwable cause = failure.getCause() == null ? failure : failure.getCause();
    return String.valueOf((named == null ? cause : named).getMessage());
  }

  /**
   * Whether the broker closed a connection that was established. With TLS 1.3, a broker refuses a
   * client certificate after the handshake, and the client may notice only that the connection has
   * ended.
   */
  private static boolean wasEnded(Throwable failure, String broker) {
    Throwable cause = failure.getCause();
    return broker.startsWith("ssl:")
        && (cause instanceof EOFException
            || (cause instanceof SocketException && !(cause instanceof ConnectException)));
  }
}
