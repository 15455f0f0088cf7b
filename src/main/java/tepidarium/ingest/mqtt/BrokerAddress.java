package tepidarium.ingest.mqtt;

import org.jspecify.annotations.Nullable;

/**
 * The address of the broker, with the login.
 *
 * @param uri for example {@code tcp://192.168.1.5:1883} or {@code ssl://broker:8883}
 */
public record BrokerAddress(String uri, @Nullable String user, @Nullable String password) {
  @Override
  public String toString() {
    return uri;
  }
}
