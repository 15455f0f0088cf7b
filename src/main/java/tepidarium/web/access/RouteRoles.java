package tepidarium.web.access;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.access.Role;

/**
 * Lists the role that each route needs. A route that is missing here is refused while the service
 * asks for a login, and a test fails.
 */
public final class RouteRoles {
  /** What a route needs: a role, or nothing (null). */
  public record Need(@Nullable Role role) {}

  private static final String OPEN =
      """
      GET /login.html
      HEAD /login.html
      GET /scripts/{language}/{file}
      GET /worker.js
      GET /manifest.webmanifest
      GET /api/health
      GET /api/health/live
      GET /api/health/ready
      GET /api/session
      POST /api/session
      DELETE /api/session
      """;

  private static final String LOOK =
      """
      GET /
      HEAD /
      GET /index.html
      HEAD /index.html
      GET /alerts.html
      HEAD /alerts.html
      GET /charts.html
      HEAD /charts.html
      GET /container.html
      HEAD /container.html
      GET /files.html
      HEAD /files.html
      GET /heat-bench.html
      HEAD /heat-bench.html
      GET /mappings.html
      HEAD /mappings.html
      GET /people.html
      HEAD /people.html
      GET /rejects.html
      HEAD /rejects.html
      GET /labels.html
      HEAD /labels.html
      GET /season.html
      HEAD /season.html
      GET /sensors.html
      HEAD /sensors.html
      GET /service.html
      HEAD /service.html
      GET /settings.html
      HEAD /settings.html
      GET /sites.html
      HEAD /sites.html
      GET /tally.html
      HEAD /tally.html
      GET /figures.html
      GET /docs/{page}
      GET /metrics
      GET /api/openapi.json
      GET /api/setup
      GET /api/live
      GET /api/site
      GET /api/sites
      GET /api/rejects
      GET /api/sessions
      DELETE /api/sessions/{session}
      PUT /api/session/password
      GET /api/containers
      GET /api/rooms
      GET /api/containers/{id}
      GET /api/containers/{id}/openings
      GET /api/containers/{id}/openings/suggested
      GET /api/containers/{id}/alert-rules
      GET /api/containers/{id}/readings
      GET /api/containers/{id}/heat
      GET /api/containers/{id}/day-extremes
      GET /api/containers/{id}/light
      GET /api/containers/{id}/band
      GET /api/charts
      GET /api/containers/{id}/faults
      GET /api/containers/{id}/events
      GET /api/containers/{id}/trial
      GET /api/compare/heat
      GET /api/compare/germination
      GET /api/compare/heat-sources
      GET /api/room
      GET /api/sensors
      GET /api/sensors/{sensor}
      GET /api/sensors/{sensor}/calibration-points
      GET /api/sensors/{sensor}/settling
      GET /api/sensors/{sensor}/faults
      GET /api/alerts
      GET /api/alerts/performance
      GET /api/alerts/notices
      GET /api/alerts/{alert}
      GET /api/notices
      GET /api/notifiers
      POST /api/sums/fraction
      POST /api/sums/difference
      POST /api/sums/stratified
      POST /api/sums/replicates
      POST /api/sums/seeds-needed
      POST /api/sums/germination
      POST /api/sums/air
      GET /api/messages
      GET /api/messages/newest
      GET /api/mappings
      POST /api/mappings/trial
      GET /api/species
      GET /api/species/{species}/thermal-time
      GET /api/species/{species}/viability
      GET /api/lots
      GET /api/lots/{lot}
      GET /api/sowings
      GET /api/sowings/{sowing}
      GET /api/sowings/{sowing}/entries
      GET /api/sowings/{sowing}/germination
      GET /api/sowings/{sowing}/heat-course
      GET /api/groups/{group}/path
      GET /api/entries/{entry}/photo
      GET /api/labels
      GET /api/containers/{id}/label.svg
      GET /api/tally
      GET /api/checks-due
      GET /api/checks-due.ics
      GET /api/seasons
      GET /api/seasons/report
      GET /api/seasons/{season}
      GET /api/export/readings
      GET /api/export/check
      GET /api/export/{table}.csv
      GET /api/record.zip
      GET /api/imports
      GET /api/imports/{import}/rejected.csv
      GET /api/import-profiles
      """;

  private static final String TEND =
      """
      POST /api/containers/{id}/openings
      POST /api/containers/{id}/openings/end
      POST /api/containers/{id}/openings/suggested/decline
      PUT /api/containers/{id}/day-extremes/{day}
      DELETE /api/containers/{id}/day-extremes/{day}
      PUT /api/sensors/{sensor}/placement
      POST /api/sensors/{sensor}/move
      POST /api/sensors/{sensor}/replace
      POST /api/sensors/{sensor}/retire
      POST /api/sensors/{sensor}/unretire
      PUT /api/sensors/{sensor}/details
      POST /api/sensors/{sensor}/fault-decisions
      POST /api/alerts/{alert}/acknowledge
      POST /api/alerts/{alert}/shelve
      POST /api/alerts/{alert}/unshelve
      POST /api/species
      PUT /api/species/{species}
      POST /api/lots
      PUT /api/lots/{lot}
      POST /api/sowings
      POST /api/groups/{group}/moves
      POST /api/groups/{group}/checks
      POST /api/groups/{group}/survival
      POST /api/groups/{group}/name
      POST /api/sowings/{sowing}/name
      POST /api/entries/{entry}/correction
      POST /api/entries/{entry}/withdrawal
      PUT /api/entries/{entry}/photo
      POST /api/seasons
      """;

  private static final String OWN =
      """
      POST /api/containers
      PUT /api/containers/{id}
      DELETE /api/containers/{id}
      PUT /api/containers/{id}/alert-rules
      PUT /api/sensors/{sensor}/placements
      PUT /api/sensors/{sensor}/calibration
      POST /api/sensors/{sensor}/calibration-points
      DELETE /api/sensors/{sensor}/calibration-points/{point}
      GET /api/sensor-accounts
      POST /api/sensor-accounts
      POST /api/sensor-accounts/{account}/password
      PUT /api/sensor-accounts/{account}/topics
      DELETE /api/sensor-accounts/{account}
      POST /api/notifiers/{name}/test
      GET /api/settings
      PATCH /api/settings
      POST /api/settings/trial
      POST /api/mappings
      DELETE /api/mappings/{mapping}
      DELETE /api/species/{species}
      DELETE /api/seasons/{season}
      POST /api/imports
      POST /api/imports/{import}/preview
      POST /api/imports/{import}/start
      POST /api/imports/{import}/stop
      DELETE /api/imports/{import}
      PUT /api/import-profiles/{profile}
      DELETE /api/import-profiles/{profile}
      POST /api/import/{table}
      POST /api/record
      GET /api/people
      POST /api/people
      PUT /api/people/{person}
      DELETE /api/people/{person}
      GET /api/tokens
      POST /api/tokens
      DELETE /api/tokens/{token}
      """;

  private static final Map<String, Need> NEEDS = needs();

  private RouteRoles() {}

  private static Map<String, Need> needs() {
    Map<String, Need> needs = new HashMap<>();
    OPEN.lines().forEach(route -> needs.put(route, new Need(null)));
    LOOK.lines().forEach(route -> needs.put(route, new Need(Role.LOOK)));
    TEND.lines().forEach(route -> needs.put(route, new Need(Role.TEND)));
    OWN.lines().forEach(route -> needs.put(route, new Need(Role.OWN)));
    return Map.copyOf(needs);
  }

  /**
   * Finds what a route needs; empty if the route is not listed.
   *
   * @param path path of the route, with the names of its parameters in braces
   */
  public static Optional<Need> of(String method, String path) {
    return Optional.ofNullable(NEEDS.get(method + ' ' + path));
  }

  /** The listed routes, such as {@code GET /api/containers/{id}}. */
  public static Set<String> routes() {
    return NEEDS.keySet();
  }
}
