package tepidarium.web.sensors;

import java.net.URI;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.access.SensorAccounts;

/** Provides the API with the logins of sensors at the broker. */
public interface BrokerLogins {
  /**
   * Connections that were refused within the last hour because the client has no account.
   *
   * @param clientId client id of the latest one; empty if there was none, or if it has no id
   * @param address network address of the latest one; empty if there was none
   */
  record Refused(long count, String clientId, String address) {}

  /**
   * How a sensor reaches the broker.
   *
   * @param broker scheme, host and port
   * @param authority the certificate to check the broker by, in PEM; null without TLS
   */
  record SensorAddress(URI broker, String rootTopic, @Nullable String authority) {
    SensorAddress withoutAuthority() {
      return new SensorAddress(broker, rootTopic, null);
    }
  }

  SensorAccounts accounts();

  /** Whether the broker is part of this service; another broker has accounts of its own. */
  boolean embedded();

  /** Where sensors need no account: {@code never}, {@code loopback} or {@code everywhere}. */
  String anonymous();

  /** User names of the clients that are connected now. */
  Set<String> connected();

  Refused refused();

  /**
   * The address for a sensor.
   *
   * @param pageHost host name under which the page was opened; used if the broker has it too
   */
  SensorAddress address(@Nullable String pageHost);
}
