package tepidarium.app;

import java.time.Clock;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.mqtt.BrokerProbe;
import tepidarium.ingest.mqtt.MqttLink;
import tepidarium.postgres.PostgresAddress;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.WaitingService;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.server.WaitingPages;
import tepidarium.web.server.WebServer;

/**
 * Waits until this service may take over from another one, and hands over to another one in a stop.
 * Without the setting {@code standby}, it only opens the stores.
 */
final class Standby {
  private final Config config;
  private final OpenFolder folder;
  private final Clock clock;
  private final RunningParts running;
  private final @Nullable WaitingPages pages;
  private final CountDownLatch handOver = new CountDownLatch(1);

  /** Answers requests by saying that the service waits, from now until {@link #endWaiting}. */
  Standby(
      Config config,
      OpenFolder folder,
      WebServer.Address address,
      Clock clock,
      RunningParts running) {
    this.config = config;
    this.folder = folder;
    this.clock = clock;
    this.running = running;
    pages = config.keeping().standby() ? running.add(WaitingPages.start(address)) : null;
  }

  /** Opens the stores; with standby, once no other service uses them. */
  Stores openStores(BrokerStart broker) {
    WaitingPages waitingPages = pages;
    if (waitingPages == null) {
      return Stores.open(config, folder, clock, running);
    }
    try (BrokerProbe probe = BrokerProbe.start(broker.await().address().get())) {
      Stores opened =
          Stores.open(
              config,
              folder,
              clock,
              running,
              probe::reached,
              waiting -> waitingPages.waitFor(waiting.working(), waiting.clockAhead()));
      waitingPages.takeOver();
      return opened;
    }
  }

  /** Leaves the port to the service's own pages. */
  void endWaiting() {
    if (pages != null) {
      pages.close();
    }
  }

  /**
   * The client id for the broker. Services that take over from one another share one session of the
   * broker. Sites with other topics have other sessions.
   */
  String clientId() {
    PostgresAddress records = config.keeping().records();
    if (pages == null || records == null) {
      return folder.clientId();
    }
    String topics =
        config.rootTopic().equals(ConfigFile.ROOT_TOPIC) ? "" : ':' + config.rootTopic();
    return "tepidarium-" + records.key() + topics;
  }

  /** Hands over to another service if this one loses the broker and that one reaches it. */
  void watchBroker(Stores stores, MqttLink link, Pace pace) {
    if (pages == null || !(stores.records() instanceof PostgresRecords shared)) {
      return;
    }
    BrokerWatch brokerWatch =
        new BrokerWatch(
            link::isUp,
            () -> shared.waiting().stream().anyMatch(WaitingService::reachesBroker),
            shared::wasGivenBackForBroker,
            shared.tookOverForBroker(),
            () -> {
              shared.giveBackForBroker();
              handOver.countDown();
            },
            pace.nanos());
    ScheduledExecutorService checking =
        Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("broker-watch"));
    running.add(checking::shutdownNow);
    long ms = pace.checks().toMillis();
    var unusedChecks =
        checking.scheduleWithFixedDelay(brokerWatch::check, ms, ms, TimeUnit.MILLISECONDS);
  }

  /** Waits until the service should be closed, so that another one takes over. */
  void awaitHandOver() throws InterruptedException {
    handOver.await();
  }
}
