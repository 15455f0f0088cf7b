package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;

class BrokerConfigurationTest {
  private static final Duration SOON = Duration.ofSeconds(30);

  @Test
  void aBrokerStopsWhileItsLockIsHeldAndStartsAgain(@TempDir Path folder) throws Exception {
    ActiveMQServer broker = start(folder);
    Path lock = folder.resolve("journal/server.lock");
    try (FileChannel file = FileChannel.open(lock, StandardOpenOption.WRITE)) {
      assertNotNull(file.tryLock());
      assertTimeoutPreemptively(SOON, () -> broker.stop());
    }
    ActiveMQServer again = start(folder);
    assertTrue(again.isActive());
    again.stop();
  }

  private static ActiveMQServer start(Path folder) throws Exception {
    BrokerConfiguration configuration = new BrokerConfiguration(folder, EmbeddedBrokerTest.LIMITS);
    ActiveMQServer broker =
        new LazyPagingBroker(configuration.broker(Ports.free()), OpenAccounts.anybody());
    broker.start();
    return broker;
  }
}
