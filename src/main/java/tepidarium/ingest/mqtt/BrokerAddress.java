package tepidarium.ingest.mqtt;

import org.jspecify.annotations.Nullable;

/**
 * Where the broker is and how to log in.
 *
 * @param uri for example {@code tcp://192.168.1.5:1883} or {@code ssl://broker:8883}
 */
public record BrokerAddress(String uri, @Nullable String user, @Nullable String password) {
  @Override
  public String toString() {
    return uri;
  }
}
