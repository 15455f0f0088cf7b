package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.net.BindException;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A server that cannot start says why. */
class WebServerTest {
  private static final WebServer.Address ADDRESS =
      new WebServer.Address("127.0.0.1", 8080, Set.of(), Set.of(), null);

  private static String words(RuntimeException failure) {
    return WebServer.startFailure(ADDRESS, failure);
  }

  @Test
  void aUsedPortIsNamedWithTheRemedy() {
    assertEquals(
        "HTTP port 8080 on 127.0.0.1 cannot be used (Address already in use). Does another program"
            + " use it? Choose another with --port.",
        words(new IllegalStateException(new BindException("Address already in use"))));
  }

  @Test
  void anotherFailureIsNotBlamedOnThePort() {
    assertEquals(
        "the pages cannot be started: java.io.IOException: Too many open files",
        words(new IllegalStateException(new IOException("Too many open files"))));
  }
}
