package tepidarium.ingest.mqtt;

import javax.net.ssl.SSLSocketFactory;
import org.jspecify.annotations.Nullable;

/**
 * The address of the broker, with the login.
 *
 * @param uri for example {@code tcp://192.168.1.5:1883} or {@code ssl://broker:8883}
 * @param tls connects with TLS; null for the certificates that Java trusts
 */
public record BrokerAddress(
    String uri, @Nullable String user, @Nullable String password, @Nullable SSLSocketFactory tls) {
  @Override
  public String toString() {
    return uri;
  }
}
