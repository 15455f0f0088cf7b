package tepidarium.app;

import java.time.Clock;
import tepidarium.container.Register;
import tepidarium.exchange.RecordExchange;
import tepidarium.exchange.RecordStores;
import tepidarium.exporting.ReadingExport;
import tepidarium.germination.SeedJournal;
import tepidarium.ingest.Mappings;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.DayExtremesRecords;
import tepidarium.records.GerminationRecords;
import tepidarium.records.ImportProfileRecords;
import tepidarium.records.SeasonRecords;
import tepidarium.records.SensorRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.sites.Sites;
import tepidarium.web.containers.ContainerViews;
import tepidarium.web.sensors.SensorActivities;
import tepidarium.web.sensors.SensorViews;
import tepidarium.web.server.ApiRoutes;
import tepidarium.web.system.ServiceInfo;

/** The parts of the service that the pages and the API show and change. */
record PagesSources(
    Config config,
    Stores stores,
    ContainerData containers,
    SensorBook sensors,
    SensorActivities activities,
    Alerting alerting,
    MessageReading messages,
    Mappings mappings,
    SensorIntake intake,
    ServiceInfo info,
    NoticeService notices,
    LoginStart login,
    SensorLogins sensorLogins,
    Sites sites,
    Clock clock) {

  ApiRoutes.Parts apiParts() {
    Register register = containers.register();
    Database records = stores.records();
    SeedJournal journal = new SeedJournal(new GerminationRecords(records), register);
    return new ApiRoutes.Parts(
        register,
        containers.calibrated(),
        containers.history(),
        alerting.watch(),
        alerting.store(),
        alerting.rules(),
        new ReadingExport(stores.storage().source(), register),
        recordExchange(journal),
        intake.imports(),
        new ImportProfileRecords(records),
        mappings,
        messages.heard(),
        intake.rejects(),
        info,
        new ContainerViews(
            register,
            containers.latestValues(),
            containers.heatSoFar(),
            alerting.watch(),
            alerting.views(),
            clock),
        sensorViews(),
        alerting.views(),
        journal,
        notices.notices(),
        new SeasonRecords(records),
        new DayExtremesRecords(records),
        containers.faults(),
        login.login(),
        sensorLogins,
        new SavedSettings(config, notices::use, notices.notices()::test, clock),
        clock,
        config.timeZone(),
        config.site(),
        config.notices().publicUrl(),
        config.network().name(),
        sites);
  }

  private RecordExchange recordExchange(SeedJournal journal) {
    Database records = stores.records();
    RecordStores written =
        new RecordStores(
            new ContainerRecords(records),
            new SensorRecords(records),
            new GerminationRecords(records),
            work ->
                records.transaction(
                    handle -> {
                      work.run();
                      return true;
                    }));
    return new RecordExchange(containers.register(), journal, sensors, written);
  }

  private SensorViews sensorViews() {
    return new SensorViews(
        containers.register(),
        sensors,
        containers.latestValues(),
        stores.storage().source(),
        activities,
        config.maxGap());
  }
}
