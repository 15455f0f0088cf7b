package tepidarium.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import io.javalin.json.JavalinJackson;
import java.io.IOException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Collection;
import java.util.Map;
import java.util.UUID;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.MinimumDataRateHandler;
import org.eclipse.jetty.util.VirtualThreads;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.notify.Notices;
import tepidarium.alert.notify.Notifier;
import tepidarium.container.Register;
import tepidarium.germination.Contradiction;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.SowingFinder;
import tepidarium.heat.DayExtremesStore;
import tepidarium.history.CalibratedReadings;
import tepidarium.ingest.RejectLog;
import tepidarium.light.Site;
import tepidarium.live.Watch;
import tepidarium.reading.InvalidInput;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.RollupWarmth;
import tepidarium.season.SeasonReporter;
import tepidarium.season.SeasonStore;
import tepidarium.series.StoreException;

/** The HTTP server: the API, the live stream and the pages. */
public final class WebServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebServer.class);
  // Each connection occupies at most one thread, so that slow clients leave threads for the others.
  private static final int MOST_THREADS = Connections.MOST + 20;
  private static final int JDK_WITHOUT_PINNING = 24;
  private static final long LEAST_BODY_BYTES_PER_SECOND = 250;

  private final Javalin javalin;
  private final LiveStream live;

  private WebServer(Javalin javalin, LiveStream live) {
    this.javalin = javalin;
    this.live = live;
  }

  /** What the routes answer from. */
  public record Parts(
      Register register,
      CalibratedReadings calibrated,
      ContainerHistory history,
      Watch watch,
      AlertStore alerts,
      AlertRules rules,
      RejectLog rejectLog,
      ServiceFacts facts,
      Views views,
      SeedJournal seeds,
      Notices notices,
      SeasonStore seasons,
      DayExtremesStore dayExtremes,
      Clock clock,
      ZoneId zone,
      @Nullable Site site) {}

  /**
   * Loads most of what a server needs, so that this can be done beside something else at a start;
   * nothing depends on it.
   */
  public static void prepare() {
    Javalin.create();
  }

  /**
   * Starts the server.
   *
   * @param names further host names under which the service is reached, besides the machine's own
   * @throws IllegalStateException when the port cannot be used; the message names it and the remedy
   */
  public static WebServer start(String host, int port, Collection<String> names, Parts parts) {
    LiveStream live = new LiveStream(parts.register(), parts.views());
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
      JavalinConfig config, String host, int port, OwnNames names, Parts parts, LiveStream live) {
    config.startup.showJavalinBanner = false;
    config.http.maxRequestSize = RequestGuard.LARGEST_BODY_BYTES;
    config.http.prefer405over404 = true;
    config.jsonMapper(new JavalinJackson(Json.MAPPER, false));
    config.jetty.threadPool = threads();
    Connections connections = new Connections();
    config.jetty.modifyServer(
        server -> {
          server.setErrorHandler(new EarlyRefusals());
          connections.setHandler(
              new MinimumDataRateHandler(server.getHandler(), LEAST_BODY_BYTES_PER_SECOND, 0));
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
    addRoutes(config.routes, parts, live);
    errors(config);
  }

  /** Requests run on virtual threads where these do not block the threads that carry them. */
  private static QueuedThreadPool threads() {
    QueuedThreadPool threads = new QueuedThreadPool(MOST_THREADS, 4, 30_000);
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

  /** Everything that can be asked for besides the pages. */
  static void addRoutes(RoutesConfig routes, Parts parts, LiveStream live) {
    new ContainerRoutes(parts.register(), parts.seeds(), parts.views()).add(routes);
    new SensorRoutes(parts.register(), parts.views()).add(routes);
    new HistoryRoutes(parts.register(), parts.calibrated(), parts.history(), parts.views())
        .add(routes);
    new HeatBenchRoutes(parts.register(), parts.calibrated(), parts.history(), parts.views())
        .add(routes);
    new DayExtremesRoutes(parts.history(), parts.views(), parts.dayExtremes()).add(routes);
    new SuggestedOpeningRoutes(parts.register(), parts.history(), parts.views()).add(routes);
    new PerformanceRoutes(
            parts.register(), parts.calibrated(), parts.alerts(), parts.rules(), parts.views())
        .add(routes);
    new AlertRoutes(parts.watch(), parts.alerts(), parts.views()).add(routes);
    new AlertRuleRoutes(parts.watch(), parts.rules(), parts.alerts(), parts.views()).add(routes);
    new SystemRoutes(parts.facts(), parts.rejectLog(), parts.watch(), parts.views()).add(routes);
    new SumsRoutes().add(routes);
    new NoticeRoutes(parts.notices()).add(routes);
    live.add(routes);
    addSeedRoutes(routes, parts);
  }

  private static void addSeedRoutes(RoutesConfig routes, Parts parts) {
    SeedJournal journal = parts.seeds();
    RollupWarmth warmth = new RollupWarmth(parts.register(), parts.calibrated(), parts.history());
    SowingFinder sowings = new SowingFinder(journal);
    SeedViews seeds = new SeedViews(journal, sowings, warmth, parts.views());
    new SpeciesRoutes(journal, sowings, seeds).add(routes);
    new SowingRoutes(journal, seeds).add(routes);
    new GerminationRoutes(seeds, sowings, parts.register(), parts.history()).add(routes);
    new HeatCourseRoutes(journal, seeds, sowings).add(routes);
    new CompareRoutes(journal, sowings, parts.register()).add(routes);
    new TallyRoutes(journal, parts.register(), seeds, parts.views()).add(routes);
    SeasonReporter reporter =
        new SeasonReporter(
            parts.register(), parts.history(), warmth, sowings, parts.zone(), parts.site());
    new SeasonRoutes(reporter, parts.seasons(), parts.views()).add(routes);
  }

  /** How each kind of exception is answered. */
  static void errors(JavalinConfig config) {
    config.routes.exception(InvalidInput.class, WebServer::invalid);
    config.routes.exception(
        Contradiction.class, (e, ctx) -> Problem.send(ctx, HttpStatus.CONFLICT, words(e)));
    config.routes.exception(
        NotFound.class, (e, ctx) -> Problem.send(ctx, HttpStatus.NOT_FOUND, words(e)));
    config.routes.exception(
        HttpResponseException.class,
        (e, ctx) -> {
          HttpStatus status = HttpStatus.forStatus(e.getStatus());
          if (status == HttpStatus.METHOD_NOT_ALLOWED) {
            ctx.header("Allow", String.join(", ", e.getDetails().values()));
          }
          Problem.send(ctx, status, refusal(ctx, status, words(e)));
        });
    config.routes.exception(HttpException.RuntimeException.class, WebServer::badTransfer);
    config.routes.exception(IOException.class, WebServer::brokenOff);
    config.routes.exception(
        StoreException.class,
        (e, ctx) -> Problem.send(ctx, HttpStatus.SERVICE_UNAVAILABLE, words(e)));
    config.routes.exception(Exception.class, WebServer::unexpected);
  }

  private static void invalid(InvalidInput e, Context ctx) {
    String field = e.field();
    Problem.send(
        ctx, HttpStatus.BAD_REQUEST, words(e), field == null ? Map.of() : Map.of("field", field));
  }

  /** The body came in a way that the server cannot read, or slower than it waits for. */
  private static void badTransfer(HttpException.RuntimeException e, Context ctx) {
    HttpStatus status = HttpStatus.forStatus(e.getCode());
    ctx.header("Connection", "close");
    Problem.send(
        ctx,
        status,
        status == HttpStatus.REQUEST_TIMEOUT
            ? "the body came slower than " + LEAST_BODY_BYTES_PER_SECOND + " bytes a second"
            : "the body cannot be read: " + e.getReason());
  }

  /** The other side left, or was too slow, in the middle of its request or answer. */
  private static void brokenOff(IOException e, Context ctx) {
    LOG.debug("{} broke off a request", ctx.ip(), e);
    try {
      ctx.header("Connection", "close");
      Problem.send(ctx, HttpStatus.REQUEST_TIMEOUT, "the request was broken off");
    } catch (RuntimeException gone) {
      LOG.debug("the other side left before its answer", gone);
    }
  }

  /**
   * Never throws: the framework would hand what is thrown here to this handler again, for ever.
   * Once the other side has gone and the server has taken the request back, nothing can be asked of
   * it.
   */
  static void unexpected(Exception e, Context ctx) {
    try {
      String reference = UUID.randomUUID().toString().substring(0, 8);
      LOG.error("{} {} failed, reference {}", ctx.method(), ctx.path(), reference, e);
      Problem.send(
          ctx,
          HttpStatus.INTERNAL_SERVER_ERROR,
          "This is a mistake in the service. The log has more, under the reference "
              + reference
              + '.',
          Map.of("reference", reference));
    } catch (RuntimeException gone) {
      LOG.debug("the other side left before its answer", e);
    }
  }

  private static String refusal(Context ctx, HttpStatus status, String words) {
    return switch (status) {
      case NOT_FOUND -> "there is nothing like this at " + ctx.path();
      case METHOD_NOT_ALLOWED -> ctx.method() + " cannot be used at " + ctx.path();
      case CONTENT_TOO_LARGE ->
          "the body is larger than the "
              + RequestGuard.LARGEST_BODY_BYTES
              + " bytes that are taken";
      default -> words;
    };
  }

  private static String words(Exception e) {
    String message = e.getMessage();
    return message == null ? e.getClass().getSimpleName() : message;
  }

  public int port() {
    return javalin.port();
  }

  /** Tells the open pages. */
  public Notifier pages() {
    return live;
  }

  @Override
  public void close() {
    live.close();
    javalin.stop();
  }
}
