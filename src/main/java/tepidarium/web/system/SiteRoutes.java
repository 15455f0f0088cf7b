package tepidarium.web.system;

import io.javalin.config.RoutesConfig;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.sites.SiteReport;
import tepidarium.sites.SiteState;
import tepidarium.sites.Sites;

/** Routes for the state of this site, and of the other sites of the network. */
public final class SiteRoutes {
  private final Sites sites;

  record ReportJson(
      String name,
      String address,
      String status,
      String trouble,
      @Nullable String detail,
      @Nullable Instant since,
      int machines,
      int machinesWaiting,
      @Nullable SiteState state) {
    static ReportJson of(SiteReport report) {
      return new ReportJson(
          report.name(),
          report.address().toString(),
          report.trouble().level().name().toLowerCase(Locale.ROOT),
          report.trouble().key(),
          report.detail(),
          report.since(),
          report.machines(),
          report.waiting(),
          report.state());
    }
  }

  record SitesJson(List<ReportJson> sites) {}

  public SiteRoutes(Sites sites) {
    this.sites = sites;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/site", ctx -> ctx.json(sites.own()));
    routes.get(
        "/api/sites",
        ctx -> ctx.json(new SitesJson(sites.reports().stream().map(ReportJson::of).toList())));
  }
}
