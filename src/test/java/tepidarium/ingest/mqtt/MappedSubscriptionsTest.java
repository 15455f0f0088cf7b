package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.eclipse.paho.mqttv5.client.MqttClientException;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.junit.jupiter.api.Test;

class MappedSubscriptionsTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");
  private static final List<String> FILTERS = List.of("a/+", "b/+", "c/+");

  private final MappedSubscriptions subscriptions = new MappedSubscriptions();
  private final List<String> subscribed = new ArrayList<>();
  private boolean closes;

  /** Refuses a/+, and closes the connection at b/+ as long as {@link #closes}. */
  private int broker(String filter) throws MqttException {
    if (filter.equals("b/+") && closes) {
      throw new MqttException(MqttClientException.REASON_CODE_CONNECTION_LOST);
    }
    if (filter.equals("a/+")) {
      return 0x87;
    }
    subscribed.add(filter);
    return 1;
  }

  @Test
  void aRefusedFilterIsReportedAndTheOthersAreSubscribed() throws MqttException {
    subscriptions.subscribe(FILTERS, this::broker, NOW);
    subscriptions.subscribe(FILTERS, this::broker, NOW);
    assertEquals(List.of("b/+", "c/+"), subscribed);
    assertTrue(String.valueOf(subscriptions.refusal("a/+")).contains("not authorized"));
    assertNull(subscriptions.refusal("b/+"));
    assertTrue(subscriptions.warning().endsWith(": a/+"), subscriptions.warning());
    subscriptions.subscribe(List.of("b/+"), this::broker, NOW);
    assertEquals("", subscriptions.warning());
    subscriptions.connecting();
    subscriptions.subscribe(FILTERS, this::broker, NOW);
    assertEquals(List.of("b/+", "c/+", "b/+", "c/+"), subscribed);
  }

  @Test
  void aFilterThatClosesTheConnectionTwicePausesForTenMinutes() throws MqttException {
    closes = true;
    for (int i = 0; i < 2; i++) {
      assertThrows(MqttException.class, () -> subscriptions.subscribe(FILTERS, this::broker, NOW));
    }
    subscriptions.subscribe(FILTERS, this::broker, NOW.plusSeconds(599));
    assertEquals(List.of("c/+"), subscribed);
    assertNotNull(subscriptions.refusal("b/+"));
    closes = false;
    subscriptions.subscribe(FILTERS, this::broker, NOW.plusSeconds(600));
    assertNull(subscriptions.refusal("b/+"));
  }
}
