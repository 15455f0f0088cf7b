package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;

import io.javalin.Javalin;
import java.time.ZoneId;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tepidarium.web.access.RouteRoles;
import tepidarium.web.live.LiveStream;
import tepidarium.web.pages.PageSetup;
import tepidarium.web.pages.Pages;

class RouteRolesTest {
  @Test
  void everyRouteHasARoleAndEveryRoleBelongsToARoute() {
    assertEquals(routes(), new TreeSet<>(RouteRoles.routes()));
  }

  /** The routes of the server's pages and API, added by the same code, with nothing behind them. */
  @SuppressWarnings("NullAway")
  private static Set<String> routes() {
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
                Pages.add(config, PageSetup.of(ZoneId.of("Europe/Berlin")));
                ApiRoutes.add(config.routes, nothing, live);
              });
      return server.unsafe.internalRouter.allHttpHandlers().stream()
          .map(handler -> handler.endpoint)
          .filter(endpoint -> endpoint.method.isHttpMethod())
          .map(endpoint -> endpoint.method.name() + ' ' + endpoint.path)
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }
}
