package tepidarium.web.live;

import io.javalin.http.sse.SseClient;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One open page: a bounded queue and the thread that writes it out. */
final class LiveClient {
  private static final Logger LOG = LoggerFactory.getLogger(LiveClient.class);
  private static final int WAITING = 2_000;
  private static final long HEARTBEAT_SECONDS = 10;

  private record Event(String name, String data) {}

  private final SseClient client;
  private final String address;
  private final Consumer<LiveClient> gone;
  private final BlockingQueue<Event> queue = new ArrayBlockingQueue<>(WAITING);
  private final Thread sender;
  private volatile boolean stopping;

  LiveClient(SseClient client, String address, Consumer<LiveClient> gone) {
    this.client = client;
    this.address = address;
    this.gone = gone;
    this.sender = new Thread(this::run, "live-client");
    sender.setDaemon(true);
    client.onClose(this::stop);
  }

  /** The address of the machine on which the page is open. */
  String address() {
    return address;
  }

  void start() {
    sender.start();
  }

  /** Adds an event; a client that has let its queue fill up is let go. */
  void offer(String name, String data) {
    if (!queue.offer(new Event(name, data))) {
      stop();
    }
  }

  void stop() {
    stopping = true;
    gone.accept(this);
    sender.interrupt();
  }

  private void run() {
    try {
      // The first word goes out at once, so that the browser knows that the stream is open.
      client.sendComment("open");
      while (!stopping && !client.terminated()) {
        send(queue.poll(HEARTBEAT_SECONDS, TimeUnit.SECONDS));
      }
    } catch (InterruptedException e) {
      // Let go; the page connects again if it is still there.
    } catch (RuntimeException e) {
      // The connection is gone.
    } finally {
      stopping = true;
      gone.accept(this);
      end();
    }
  }

  /** Ends the answer, unless the server has done so already because the browser went away. */
  private void end() {
    try {
      client.close();
    } catch (RuntimeException e) {
      LOG.debug("a live stream was over before it was ended", e);
    }
  }

  private void send(@Nullable Event event) {
    if (event == null) {
      client.sendComment("still here");
    } else {
      client.sendEvent(event.name(), event.data());
    }
  }
}
