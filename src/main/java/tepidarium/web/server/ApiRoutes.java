package tepidarium.web.server;

import io.javalin.config.RoutesConfig;
import java.time.Clock;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.notify.Notices;
import tepidarium.container.Register;
import tepidarium.exchange.RecordExchange;
import tepidarium.exporting.ReadingExport;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.SowingFinder;
import tepidarium.heat.DayExtremesStore;
import tepidarium.history.CalibratedReadings;
import tepidarium.importing.ImportJobs;
import tepidarium.importing.ProfileStore;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.Mappings;
import tepidarium.ingest.RejectLog;
import tepidarium.light.Site;
import tepidarium.live.Watch;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.rollup.RollupTemperatures;
import tepidarium.season.SeasonReporter;
import tepidarium.season.SeasonStore;
import tepidarium.sites.Sites;
import tepidarium.web.ContainerRequests;
import tepidarium.web.access.Login;
import tepidarium.web.access.PeopleRoutes;
import tepidarium.web.access.SessionRoutes;
import tepidarium.web.alerts.AlertRoutes;
import tepidarium.web.alerts.AlertRuleRoutes;
import tepidarium.web.alerts.AlertViews;
import tepidarium.web.alerts.NoticeRoutes;
import tepidarium.web.alerts.PerformanceRoutes;
import tepidarium.web.containers.ContainerRoutes;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.files.ExportRoutes;
import tepidarium.web.files.ImportProfileRoutes;
import tepidarium.web.files.ImportRoutes;
import tepidarium.web.files.RecordRoutes;
import tepidarium.web.germination.CompareRoutes;
import tepidarium.web.germination.GerminationRoutes;
import tepidarium.web.germination.HeatCourseRoutes;
import tepidarium.web.heatbench.HeatBenchRoutes;
import tepidarium.web.history.BandRoutes;
import tepidarium.web.history.ChartRoutes;
import tepidarium.web.history.DayExtremesRoutes;
import tepidarium.web.history.EventRoutes;
import tepidarium.web.history.HeatRoutes;
import tepidarium.web.history.LightRoutes;
import tepidarium.web.history.SeriesRoutes;
import tepidarium.web.history.SuggestedOpeningRoutes;
import tepidarium.web.labels.LabelRoutes;
import tepidarium.web.live.LiveStream;
import tepidarium.web.mappings.MappingRoutes;
import tepidarium.web.seasons.SeasonRoutes;
import tepidarium.web.seeds.SeedViews;
import tepidarium.web.seeds.SowingRoutes;
import tepidarium.web.seeds.SpeciesRoutes;
import tepidarium.web.seeds.TallyRoutes;
import tepidarium.web.sensors.BrokerLogins;
import tepidarium.web.sensors.FaultRoutes;
import tepidarium.web.sensors.PlacementRoutes;
import tepidarium.web.sensors.SensorAccountRoutes;
import tepidarium.web.sensors.SensorRoutes;
import tepidarium.web.sensors.SensorViews;
import tepidarium.web.settings.ServiceSettings;
import tepidarium.web.settings.SettingRoutes;
import tepidarium.web.sums.SumsRoutes;
import tepidarium.web.system.ServiceInfo;
import tepidarium.web.system.SiteRoutes;
import tepidarium.web.system.SystemRoutes;

/** Registers the routes of the API. */
public final class ApiRoutes {
  private ApiRoutes() {}

  /**
   * The objects that the routes use.
   *
   * @param site null if it is not known
   * @param publicUrl address of the pages from outside; null if it is not set
   * @param siteName name of this site; null if it has none
   * @param sites the state of this site and of the others
   */
  public record Parts(
      Register register,
      CalibratedReadings calibrated,
      ContainerHistory history,
      Watch watch,
      AlertStore alerts,
      AlertRules rules,
      ReadingExport export,
      RecordExchange exchange,
      ImportJobs imports,
      ProfileStore importProfiles,
      Mappings mappings,
      HeardMessages heard,
      RejectLog rejectLog,
      ServiceInfo info,
      ContainerViews containers,
      SensorViews sensors,
      AlertViews alertViews,
      SeedJournal seeds,
      Notices notices,
      SeasonStore seasons,
      DayExtremesStore dayExtremes,
      FaultHistory faults,
      Login login,
      BrokerLogins brokerLogins,
      ServiceSettings settings,
      Clock clock,
      ZoneId zone,
      @Nullable Site site,
      @Nullable String publicUrl,
      @Nullable String siteName,
      Sites sites) {}

  /** Adds all routes except those of the pages. */
  static void add(RoutesConfig routes, Parts parts, LiveStream live) {
    ContainerRequests requests =
        new ContainerRequests(parts.register(), parts.history(), parts.clock());
    ContainerRoutes containers =
        new ContainerRoutes(
            parts.register(),
            parts.seeds(),
            parts.containers(),
            parts.watch(),
            requests,
            parts.clock());
    containers.add(routes);
    new SensorRoutes(parts.register(), parts.sensors(), parts.clock()).add(routes);
    new SensorAccountRoutes(parts.brokerLogins(), parts.clock()).add(routes);
    new PlacementRoutes(parts.register(), parts.sensors(), parts.history(), parts.clock())
        .add(routes);
    FaultRoutes faults =
        new FaultRoutes(
            parts.register(),
            parts.faults(),
            parts.history(),
            requests,
            parts.sensors(),
            parts.clock());
    faults.add(routes);
    addHistoryRoutes(routes, parts, requests, containers::openings, faults::ofContainer);
    new HeatBenchRoutes(
            parts.register(),
            parts.calibrated(),
            parts.history(),
            parts.faults(),
            requests,
            parts.zone())
        .add(routes);
    addAlertRoutes(routes, parts, requests);
    new SystemRoutes(parts.info(), parts.rejectLog(), parts.watch(), parts.clock()).add(routes);
    new SiteRoutes(parts.sites()).add(routes);
    new MappingRoutes(parts.mappings(), parts.heard(), parts.clock()).add(routes);
    new SettingRoutes(parts.settings()).add(routes);
    new ExportRoutes(parts.export()).add(routes);
    new RecordRoutes(parts.exchange(), parts.clock()).add(routes);
    new ImportRoutes(parts.imports()).add(routes);
    new ImportProfileRoutes(parts.importProfiles()).add(routes);
    new SumsRoutes().add(routes);
    new SessionRoutes(parts.login()).add(routes);
    new PeopleRoutes(parts.login()).add(routes);
    live.add(routes);
    addSeedRoutes(routes, parts, requests);
  }

  private static void addHistoryRoutes(
      RoutesConfig routes,
      Parts parts,
      ContainerRequests requests,
      ChartRoutes.Part openings,
      ChartRoutes.Part faults) {
    SeriesRoutes series = new SeriesRoutes(parts.history(), parts.faults(), requests);
    HeatRoutes heat = new HeatRoutes(parts.history(), parts.faults(), requests, parts.zone());
    LightRoutes light =
        new LightRoutes(parts.register(), parts.history(), parts.faults(), requests, parts.site());
    BandRoutes band = new BandRoutes(parts.register(), parts.history(), parts.faults(), requests);
    EventRoutes events =
        new EventRoutes(parts.register(), new SowingFinder(parts.seeds()), requests);
    series.add(routes);
    heat.add(routes);
    light.add(routes);
    band.add(routes);
    events.add(routes);
    new ChartRoutes(requests, series, heat, light, band, events, openings, faults).add(routes);
    new DayExtremesRoutes(
            parts.history(), parts.dayExtremes(), requests, parts.clock(), parts.zone())
        .add(routes);
    new SuggestedOpeningRoutes(parts.register(), parts.history(), requests).add(routes);
  }

  private static void addAlertRoutes(RoutesConfig routes, Parts parts, ContainerRequests requests) {
    new PerformanceRoutes(
            parts.register(), parts.calibrated(), parts.alerts(), parts.rules(), parts.clock())
        .add(routes);
    new NoticeRoutes(parts.notices()).add(routes);
    new AlertRoutes(parts.watch(), parts.alerts(), parts.alertViews(), requests, parts.clock())
        .add(routes);
    new AlertRuleRoutes(parts.watch(), parts.rules(), parts.alerts(), requests).add(routes);
  }

  private static void addSeedRoutes(RoutesConfig routes, Parts parts, ContainerRequests requests) {
    SeedJournal journal = parts.seeds();
    RollupTemperatures temperatures =
        new RollupTemperatures(parts.register(), parts.calibrated(), parts.history());
    SowingFinder sowings = new SowingFinder(journal);
    SeedViews seeds = new SeedViews(journal, sowings, temperatures, parts.clock());
    new SpeciesRoutes(journal, sowings, seeds).add(routes);
    new SowingRoutes(journal, seeds).add(routes);
    new GerminationRoutes(sowings, temperatures, parts.register(), parts.history(), parts.clock())
        .add(routes);
    new HeatCourseRoutes(journal, sowings, temperatures, parts.clock()).add(routes);
    new CompareRoutes(journal, sowings, parts.register()).add(routes);
    new TallyRoutes(journal, parts.register(), seeds, parts.clock(), parts.zone()).add(routes);
    new LabelRoutes(parts.register(), requests, journal, sowings, parts.publicUrl()).add(routes);
    SeasonReporter reporter =
        new SeasonReporter(
            parts.register(), parts.history(), temperatures, sowings, parts.zone(), parts.site());
    new SeasonRoutes(reporter, parts.seasons(), parts.clock()).add(routes);
  }
}
