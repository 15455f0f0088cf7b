package tepidarium.app;

import java.nio.charset.StandardCharsets;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.NoticeJson;
import tepidarium.alert.notify.Notifier;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.web.Json;

/**
 * Publishes each notice over MQTT, not retained, to the topic {@code notice/<kind>/<priority>}
 * below the root topic. A notice counts as delivered when the broker has acknowledged it.
 */
final class MqttNotifier implements Notifier {
  private final MqttLink link;
  private final String rootTopic;

  MqttNotifier(MqttLink link, String rootTopic) {
    this.link = link;
    this.rootTopic = rootTopic;
  }

  @Override
  public String name() {
    return "mqtt";
  }

  @Override
  public String kind() {
    return "mqtt";
  }

  @Override
  public String target() {
    return rootTopic + "/notice/#";
  }

  @Override
  public DeliveryOutcome deliver(Delivery delivery) {
    NoticeJson notice = NoticeJson.of(delivery.notice());
    String topic = "notice/" + notice.kind() + '/' + notice.priority();
    byte[] payload = Json.write(notice).getBytes(StandardCharsets.UTF_8);
    return link.publish(topic, payload)
        ? DeliveryOutcome.delivered(
            "the broker acknowledged it on topic " + rootTopic + '/' + topic)
        : DeliveryOutcome.later("the broker did not acknowledge it: " + link.state());
  }
}
