package tepidarium.ingest.mqtt;

import javax.net.ssl.SSLContext;
import org.jspecify.annotations.Nullable;

/**
 * Where the embedded broker listens for sensors.
 *
 * @param host address to listen on; 0.0.0.0 for all addresses
 * @param port port without TLS
 * @param tls port with TLS; null for none
 */
public record SensorPorts(String host, int port, @Nullable Tls tls) {
  /** A port with TLS, and the context that provides its certificate. */
  public record Tls(int port, SSLContext context) {}
}
