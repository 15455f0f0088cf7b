package tepidarium.ingest.mqtt;

import java.util.List;
import java.util.function.BiConsumer;

/** Accounts of an embedded broker without a service behind it. */
public final class OpenAccounts {
  private OpenAccounts() {}

  /** Lets everybody in. */
  public static BrokerAccounts anybody() {
    return of(BrokerClients.ANYBODY, (topic, reason) -> {});
  }

  /**
   * Lets some clients in.
   *
   * @param refused called with the topic and the reason of each refused message
   */
  static BrokerAccounts of(BrokerClients clients, BiConsumer<String, String> refused) {
    return new BrokerAccounts(
        new BrokerAccounts.ServiceLogin("service-client", "service", "word"),
        clients,
        new BrokerAccounts.Topics("tepidarium", List::of, topic -> null, (topic, payload) -> {}),
        refused);
  }
}
