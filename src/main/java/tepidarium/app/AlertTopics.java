package tepidarium.app;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertStore;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.LiveListener;
import tepidarium.live.Watch;
import tepidarium.reading.SensorId;
import tepidarium.series.StoreException;
import tepidarium.web.Json;
import tepidarium.web.alerts.AlertViews;

/**
 * Publishes the newest alert of each container and kind to a retained MQTT topic, for lamps and
 * buzzers.
 */
final class AlertTopics implements LiveListener {
  private static final Logger LOG = LoggerFactory.getLogger(AlertTopics.class);

  /** Number of the newest alerts that are published again after a reconnect. */
  private static final int REPUBLISHED_ALERTS = 100;

  private static final byte[] EMPTY_PAYLOAD = new byte[0];

  private final MqttLink link;
  private final Watch watch;
  private final AlertStore alerts;
  private final Register register;
  private final AlertViews views;

  AlertTopics(MqttLink link, Watch watch, AlertStore alerts, Register register, AlertViews views) {
    this.link = link;
    this.watch = watch;
    this.alerts = alerts;
    this.register = register;
    this.views = views;
  }

  /**
   * Publishes the current alerts after a reconnect. Includes closed alerts, because an alert may
   * have closed or been acknowledged while the link was down.
   */
  void publishAll() {
    Map<String, Alert> newest = new LinkedHashMap<>();
    try {
      alerts.newest(REPUBLISHED_ALERTS).forEach(alert -> newest.putIfAbsent(topic(alert), alert));
    } catch (StoreException e) {
      LOG.warn("cannot publish closed alerts again to MQTT: {}", e.getMessage());
    }
    watch.openAlerts().forEach(alert -> newest.put(topic(alert), alert));
    List.copyOf(newest.values()).forEach(this::alertChanged);
  }

  @Override
  public void alertChanged(Alert alert) {
    String text = Json.write(views.alert(alert));
    link.publishRetained(topic(alert), text.getBytes(StandardCharsets.UTF_8));
  }

  private static String topic(Alert alert) {
    return topic(alert.container(), alert.kind());
  }

  private static String topic(ContainerId container, AlertKind kind) {
    return "alert/" + container + '/' + kind.key();
  }

  /** Deletes the retained topics of a removed container, so that its lamps go off. */
  @Override
  public void containerChanged(ContainerId container) {
    if (!container.equals(ContainerId.ROOM) && register.container(container).isEmpty()) {
      for (AlertKind kind : AlertKind.values()) {
        link.publishRetained(topic(container, kind), EMPTY_PAYLOAD);
      }
    }
  }

  @Override
  public void sensorHeard(SensorId sensor) {}
}
