package tepidarium.web.server;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.json.JavalinJackson;
import java.util.Collection;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.MinimumDataRateHandler;
import org.eclipse.jetty.util.VirtualThreads;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.notify.Notifier;
import tepidarium.web.Json;
import tepidarium.web.live.LiveStream;
import tepidarium.web.pages.Pages;

/** Runs the HTTP server with the API, the live stream and the pages. */
public final class WebServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebServer.class);
  // Each connection occupies at most one thread, so slow clients leave threads for the others.
  private static final int MAX_THREADS = Connections.MAX_CONNECTIONS + 20;
  private static final int JDK_WITHOUT_PINNING = 24;

  private final Javalin javalin;
  private final LiveStream live;

  private WebServer(Javalin javalin, LiveStream live) {
    this.javalin = javalin;
    this.live = live;
  }

  /**
   * Loads most classes of the server in advance, so that the start can do this in parallel. Calling
   * it is optional.
   */
  public static void prepare() {
    Javalin.create();
  }

  /**
   * Starts the server.
   *
   * @param names host names of the service, in addition to those of the machine
   * @throws IllegalStateException when the port cannot be used; the message names the port and the
   *     remedy
   */
  public static WebServer start(
      String host, int port, Collection<String> names, ApiRoutes.Parts parts) {
    LiveStream live =
        new LiveStream(
            parts.register(),
            parts.containers(),
            parts.sensors(),
            parts.alertViews(),
            parts.clock());
    parts.watch().listen(live);
    try {
      Javalin javalin =
          Javalin.create(config -> configure(config, host, port, new OwnNames(names), parts, live));
      javalin.start();
      LOG.info("pages and API at http://{}:{}/", host, javalin.port());
      return new WebServer(javalin, live);
    } catch (RuntimeException e) {
      live.close();
      throw new IllegalStateException(
          "HTTP port "
              + port
              + " on "
              + host
              + " cannot be used. Does another program use it? Choose another with --port.",
          e);
    }
  }

  private static void configure(
      JavalinConfig config,
      String host,
      int port,
      OwnNames names,
      ApiRoutes.Parts parts,
      LiveStream live) {
    config.startup.showJavalinBanner = false;
    config.http.maxRequestSize = RequestGuard.MAX_BODY_BYTES;
    config.http.prefer405over404 = true;
    config.jsonMapper(new JavalinJackson(Json.MAPPER, false));
    config.jetty.threadPool = threads();
    Connections connections = new Connections();
    config.jetty.modifyServer(
        server -> {
          server.setErrorHandler(new EarlyRefusals());
          connections.setHandler(
              new MinimumDataRateHandler(
                  server.getHandler(), Failures.MIN_BODY_BYTES_PER_SECOND, 0));
          server.setHandler(connections);
        });
    config.jetty.modifyHttpConfiguration(WebServer::configure);
    config.jetty.addConnector(
        (server, http) -> {
          ServerConnector connector = new ServerConnector(server, new HttpConnectionFactory(http));
          connector.setHost(host);
          connector.setPort(port);
          connector.addBean(connections);
          return connector;
        });
    config.routes.before("/api/*", ctx -> ctx.header("Cache-Control", "no-store"));
    new RequestGuard(names).add(config.routes);
    Pages.add(config);
    ApiRoutes.add(config.routes, parts, live);
    Failures.add(config);
  }

  /** Uses virtual threads on Java versions in which they do not pin carrier threads. */
  private static QueuedThreadPool threads() {
    QueuedThreadPool threads = new QueuedThreadPool(MAX_THREADS, 4, 30_000);
    threads.setName("http");
    if (Runtime.version().feature() >= JDK_WITHOUT_PINNING) {
      threads.setVirtualThreadsExecutor(VirtualThreads.getNamedVirtualThreadsExecutor("http-"));
    }
    return threads;
  }

  private static void configure(HttpConfiguration http) {
    http.addCustomizer(
        (request, headers) -> {
          headers.put("X-Content-Type-Options", "nosniff");
          return request;
        });
  }

  public int port() {
    return javalin.port();
  }

  /** Sends notices to the open pages. */
  public Notifier pages() {
    return live;
  }

  @Override
  public void close() {
    live.close();
    javalin.stop();
  }
}
