package tepidarium.web.server;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.json.JavalinJackson;
import io.javalin.util.JavalinBindException;
import java.net.BindException;
import java.nio.channels.UnresolvedAddressException;
import java.util.Set;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.server.handler.MinimumDataRateHandler;
import org.eclipse.jetty.util.VirtualThreads;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.notify.Notifier;
import tepidarium.web.Json;
import tepidarium.web.access.LoginGuard;
import tepidarium.web.live.LiveStream;
import tepidarium.web.pages.PageSetup;
import tepidarium.web.pages.Pages;

/** Runs the HTTP server with the API, the live stream and the pages. */
public final class WebServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebServer.class);
  // Each connection occupies at most one thread, so slow clients leave threads for the others.
  private static final int MAX_THREADS = Connections.MAX_CONNECTIONS + 20;
  private static final int JDK_WITHOUT_PINNING = 24;

  /**
   * Browsers use TLS alone for the host for this long. One day, because it also holds for other
   * programs on this host.
   */
  private static final long HSTS_SECONDS = 86_400;

  private final Javalin javalin;
  private final LiveStream live;

  /**
   * Where the server listens.
   *
   * @param port 0 selects a free port
   * @param names host names of the service, in addition to those of the machine
   * @param proxies addresses of reverse proxies whose X-Forwarded headers are trusted
   * @param tls null to serve the pages without TLS
   */
  public record Address(
      String host, int port, Set<String> names, Set<String> proxies, @Nullable PagesTls tls) {
    public Address {
      names = Set.copyOf(names);
      proxies = Set.copyOf(proxies);
    }

    /** The address of the pages on a port. */
    String url(int port) {
      return (tls == null ? "http" : "https") + "://" + host + ':' + port + '/';
    }
  }

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
   * @throws IllegalStateException when the server cannot start. If the port cannot be used, the
   *     message names the port and the remedy
   */
  public static WebServer start(Address address, ApiRoutes.Parts parts) {
    LiveStream live =
        new LiveStream(
            parts.register(),
            parts.containers(),
            parts.sensors(),
            parts.alertViews(),
            parts.clock());
    parts.watch().listen(live);
    try {
      Javalin javalin = Javalin.create(config -> configure(config, address, parts, live));
      javalin.start();
      LOG.info("pages and API at {}", address.url(javalin.port()));
      return new WebServer(javalin, live);
    } catch (RuntimeException e) {
      live.close();
      throw new IllegalStateException(startFailure(address, e), e);
    }
  }

  static String startFailure(Address address, RuntimeException failure) {
    Throwable cause = failure;
    while (cause.getCause() != null && !isOfPort(cause)) {
      cause = cause.getCause();
    }
    return isOfPort(cause)
        ? "HTTP port %d on %s cannot be used (%s). Does another program use it? Choose another with --port."
            .formatted(address.port(), address.host(), cause.getMessage())
        : "the pages cannot be started: " + cause;
  }

  private static boolean isOfPort(Throwable cause) {
    return cause instanceof BindException
        || cause instanceof UnresolvedAddressException
        || cause instanceof JavalinBindException;
  }

  private static void configure(
      JavalinConfig config, Address address, ApiRoutes.Parts parts, LiveStream live) {
    listen(config, address);
    config.http.maxRequestSize = RequestGuard.MAX_BODY_BYTES;
    config.http.prefer405over404 = true;
    config.jsonMapper(new JavalinJackson(Json.MAPPER, false));
    config.routes.before("/api/*", ctx -> ctx.header("Cache-Control", "no-store"));
    new RequestGuard(new OwnNames(address.names())).add(config.routes);
    new LoginGuard(parts.login()).add(config.routes);
    Pages.add(config, new PageSetup(parts.zone(), parts.siteName(), !parts.sites().isEmpty()));
    ApiRoutes.add(config.routes, parts, live);
    Failures.add(config);
  }

  /** Sets where and how the server listens. */
  static void listen(JavalinConfig config, Address address) {
    config.startup.showJavalinBanner = false;
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
    config.jetty.modifyHttpConfiguration(http -> configure(http, address));
    config.jetty.addConnector(
        (server, http) -> {
          ServerConnector connector = connector(server, http, address.tls());
          connector.setHost(address.host());
          connector.setPort(address.port());
          connector.addBean(connections);
          return connector;
        });
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

  private static ServerConnector connector(
      Server server, HttpConfiguration http, @Nullable PagesTls tls) {
    HttpConnectionFactory plain = new HttpConnectionFactory(http);
    return tls == null
        ? new ServerConnector(server, plain)
        : new ServerConnector(
            server, new SslConnectionFactory(tls.factory(), plain.getProtocol()), plain);
  }

  private static void configure(HttpConfiguration http, Address address) {
    http.addCustomizer(new SecurityHeaders());
    // Else a value that differs from an earlier one of its connection in case only, such as a
    // token, is replaced by the earlier one.
    http.setHeaderCacheCaseSensitive(true);
    if (address.tls() != null) {
      // OwnNames checks the host, so a name that is not in the certificate needs no check here.
      SecureRequestCustomizer secure = new SecureRequestCustomizer(false);
      secure.setStsMaxAge(HSTS_SECONDS);
      http.addCustomizer(secure);
    }
    http.addCustomizer(new TrustedProxies(address.proxies()));
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
