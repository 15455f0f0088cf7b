package tepidarium.alert.notify.channel;

import java.net.URI;
import java.net.http.HttpRequest;
import java.time.Duration;
import tepidarium.alert.notify.Outcome;

/** Calls an address on another machine, so that somebody notices when the calls stop. */
public final class Heartbeat {
  private final URI url;
  private final Web web = new Web(Duration.ofSeconds(15));

  public Heartbeat(URI url) {
    this.url = url;
  }

  /** Calls once, with GET; waits for the answer, 15 s at most. */
  public Outcome beat() {
    return web.send(HttpRequest.newBuilder(url).GET().build());
  }
}
