package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.datastax.oss.driver.api.core.ConsistencyLevel;
import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.cql.SimpleStatement;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Cassandra;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.it.SeparateNetwork;

/**
 * One of three Cassandra nodes is lost while sensors publish: killed, frozen, or cut off from the
 * others and from the service. It is in a network of its own, so this needs root. The short form is
 * in {@code CassandraReadingsIT}, which has one node for all its tests.
 */
class CassandraNodesIT {
  private static final int ENOUGH = 1_000;
  private static final int SENSORS = 4;
  private static final int SECONDS_AWAY = 20;

  /**
   * The one in a network of its own. Neither the first one, which tells the others of one another,
   * nor the one that is periodic.
   */
  private static final int LOST = 2;

  private static final List<String> SYNCS = List.of("batch", "batch", "periodic");

  @TempDir private Path folder;
  private SeparateNetwork network;
  private Cassandra cluster;

  private enum Trouble {
    SIGKILL,
    SIGSTOP,
    CUT_OFF
  }

  private void begin(Trouble trouble) {
    switch (trouble) {
      case SIGKILL -> cluster.kill(LOST);
      case SIGSTOP -> cluster.freeze(LOST);
      case CUT_OFF -> network.cable().cut();
    }
  }

  private void end(Trouble trouble) {
    switch (trouble) {
      case SIGKILL -> cluster.start(LOST);
      case SIGSTOP -> cluster.thaw(LOST);
      case CUT_OFF -> network.cable().join();
    }
  }

  @AfterEach
  void stop() {
    if (cluster != null) {
      cluster.close();
    }
    if (network != null) {
      network.close();
    }
  }

  @TestFactory
  Stream<DynamicTest> everyAcknowledgedReadingIsThereOnce() {
    Trouble[] troubles = Trouble.values();
    return Stream.of(troubles)
        .limit(Form.of(0, troubles.length))
        .map(trouble -> dynamicTest(trouble.name(), () -> drive(trouble)));
  }

  private void drive(Trouble trouble) {
    if (cluster == null) {
      network = SeparateNetwork.made(1);
      cluster = Cassandra.started(SYNCS, network);
    }
    String keyspace = "garden_" + trouble.ordinal();
    try (RunningService service =
        RunningService.start(
            RunningService.config(
                folder.resolve(keyspace),
                "embedded",
                Ports.free(),
                Cassandra.settings(cluster.url(keyspace))),
            Clock.tickMillis(ZoneOffset.UTC))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      grower.awaitReadingsPart(Form.SOON, "up:", "Set commitlog_sync to group or batch there");
      try (Load load = Load.on(service.mqttPort(), SENSORS)) {
        load.awaitMore(ENOUGH);
        begin(trouble);
        long atNanos = System.nanoTime();
        long more = Tally.of(grower).stored() + ENOUGH;
        await().atMost(Form.SOON).until(() -> Tally.of(grower).stored() >= more);
        double seconds = Health.secondsUntilUp(() -> grower, atNanos);
        Form.last(SECONDS_AWAY);
        end(trouble);
        load.awaitMore(ENOUGH);
        load.finish();
        long sent = load.acknowledged();
        Tally tally = Health.settled(() -> grower, sent);
        assertEquals(0, tally.rejected());
        long there = count(keyspace);
        new Row(
                "one of three Cassandra nodes: " + trouble,
                tally,
                Math.max(0, sent - there),
                Math.max(0, there - sent),
                seconds)
            .check();
      }
    }
  }

  /** As many as two of the three replicas know of. */
  private long count(String keyspace) {
    long rows = 0;
    try (CqlSession session = cluster.administrator()) {
      for (var row :
          session.execute(
              SimpleStatement.newInstance("SELECT at FROM " + keyspace + ".reading")
                  .setConsistencyLevel(ConsistencyLevel.QUORUM))) {
        rows += row.getLong(0) > 0 ? 1 : 0;
      }
    }
    return rows;
  }
}
