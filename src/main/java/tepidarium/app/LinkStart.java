package tepidarium.app;

import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.live.Watch;

/**
 * Starts the MQTT link. Each time the link connects, this publishes all alerts and makes the
 * embedded broker accept sensors.
 */
final class LinkStart {
  private static final Logger LOG = LoggerFactory.getLogger(LinkStart.class);

  private static final Duration MAX_WAIT = Duration.ofSeconds(20);

  private final MqttLink link;
  private final Watch watch;
  private final AlertTopics topics;
  private final Runnable openSensorPort;
  private final CountDownLatch sensorPortOpened = new CountDownLatch(1);

  /**
   * Prepares the start.
   *
   * @param openSensorPort opens the broker's port for sensors; called on a thread of the link
   */
  LinkStart(MqttLink link, Watch watch, AlertTopics topics, Runnable openSensorPort) {
    this.link = link;
    this.watch = watch;
    this.topics = topics;
    this.openSensorPort = openSensorPort;
  }

  /** Starts to connect; does not wait for the connection. */
  void start() {
    link.start(this::linkChanged);
  }

  private void linkChanged(boolean up) {
    watch.linkChanged(up);
    if (up) {
      topics.publishAll();
      openSensorPort.run();
      sensorPortOpened.countDown();
    }
  }

  /** Waits up to 20 s until sensors can publish; logs a warning if they cannot. */
  void awaitSensors() {
    try {
      if (!sensorPortOpened.await(MAX_WAIT.toSeconds(), TimeUnit.SECONDS)) {
        LOG.warn("sensors cannot publish yet: {}", link.state());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
