package tepidarium.web.server;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.router.Endpoint;
import java.util.List;
import java.util.function.Consumer;
import tepidarium.web.live.LiveStream;

/** The routes of the API, added by the server's own code, with nothing behind them. */
final class AddedRoutes {
  private AddedRoutes() {}

  /**
   * Returns them as endpoints.
   *
   * @param more adds further routes
   */
  @SuppressWarnings("NullAway")
  static List<Endpoint> with(Consumer<JavalinConfig> more) {
    ApiRoutes.Parts nothing =
        new ApiRoutes.Parts(
            null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            null, null, null, null, null, null, null, null, null, null, null, null, null, null,
            null, null, null);
    try (LiveStream live = new LiveStream(null, null, null, null, null)) {
      Javalin server =
          Javalin.create(
              config -> {
                config.startup.showJavalinBanner = false;
                more.accept(config);
                ApiRoutes.add(config.routes, nothing, live);
              });
      return server.unsafe.internalRouter.allHttpHandlers().stream()
          .map(handler -> handler.endpoint)
          .filter(endpoint -> endpoint.method.isHttpMethod())
          .toList();
    }
  }
}
