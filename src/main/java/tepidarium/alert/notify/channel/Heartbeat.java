package tepidarium.alert.notify.channel;

import java.net.URI;
import java.net.http.HttpRequest;
import java.time.Duration;
import tepidarium.alert.notify.DeliveryOutcome;

/** Sends heartbeat requests to another machine, which can alert a person when they stop. */
public final class Heartbeat {
  private final URI url;
  private final HttpSender web = new HttpSender(Duration.ofSeconds(15));

  public Heartbeat(URI url) {
    this.url = url;
  }

  /** Sends one GET request; waits at most 15 s for the response. */
  public DeliveryOutcome beat() {
    return web.send(HttpRequest.newBuilder(url).GET().build());
  }
}
