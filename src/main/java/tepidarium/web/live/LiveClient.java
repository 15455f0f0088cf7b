package tepidarium.web.live;

import io.javalin.http.sse.SseClient;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Sends events to one open page, with a bounded queue and a sending thread. Sends nothing after the
 * session or token of the page has ended, and closes the stream within a second.
 */
final class LiveClient {
  private static final Logger LOG = LoggerFactory.getLogger(LiveClient.class);
  private static final int MAX_QUEUED = 2_000;
  private static final long HEARTBEAT_NS = TimeUnit.SECONDS.toNanos(10);
  private static final long LOOK_SECONDS = 1;

  private record Event(String name, String data) {}

  private final SseClient client;
  private final String address;
  private final BooleanSupplier isStillAllowed;
  private final Consumer<LiveClient> onClosed;
  private final BlockingQueue<Event> queue = new ArrayBlockingQueue<>(MAX_QUEUED);
  private final Thread sender;
  private volatile boolean stopping;

  LiveClient(
      SseClient client,
      String address,
      BooleanSupplier isStillAllowed,
      Consumer<LiveClient> onClosed) {
    this.client = client;
    this.address = address;
    this.isStillAllowed = isStillAllowed;
    this.onClosed = onClosed;
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

  /** Adds an event; disconnects the client if its queue is full. */
  void offer(String name, String data) {
    if (!queue.offer(new Event(name, data))) {
      stop();
    }
  }

  void stop() {
    stopping = true;
    onClosed.accept(this);
    sender.interrupt();
  }

  private void run() {
    try {
      // Sent at once, so that the browser knows that the stream is open.
      client.sendComment("open");
      long sentNs = System.nanoTime();
      while (!stopping && !client.terminated()) {
        Event event = queue.poll(LOOK_SECONDS, TimeUnit.SECONDS);
        if (!isStillAllowed.getAsBoolean()) {
          return;
        }
        if (event != null || System.nanoTime() - sentNs >= HEARTBEAT_NS) {
          send(event);
          sentNs = System.nanoTime();
        }
      }
    } catch (InterruptedException e) {
      // Disconnected; the page connects again if it is still open.
    } catch (RuntimeException e) {
      // The connection is closed.
    } finally {
      stopping = true;
      onClosed.accept(this);
      end();
    }
  }

  /** Closes the stream; the server may have closed it already because the browser disconnected. */
  private void end() {
    try {
      client.close();
    } catch (RuntimeException e) {
      LOG.debug("a live stream was already closed", e);
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
