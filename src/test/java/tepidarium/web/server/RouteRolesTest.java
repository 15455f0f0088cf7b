package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.ZoneId;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tepidarium.web.access.RouteRoles;
import tepidarium.web.pages.PageSetup;
import tepidarium.web.pages.Pages;

class RouteRolesTest {
  @Test
  void everyRouteHasARoleAndEveryRoleBelongsToARoute() {
    assertEquals(routes(), new TreeSet<>(RouteRoles.routes()));
  }

  private static Set<String> routes() {
    PageSetup setup = PageSetup.of(ZoneId.of("Europe/Berlin"));
    return AddedRoutes.with(config -> Pages.add(config, setup)).stream()
        .map(endpoint -> endpoint.method.name() + ' ' + endpoint.path)
        .collect(Collectors.toCollection(TreeSet::new));
  }
}
