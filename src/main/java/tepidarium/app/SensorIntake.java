package tepidarium.app;

import java.time.Clock;
import tepidarium.importing.ImportJobs;
import tepidarium.ingest.IngestCounters;
import tepidarium.ingest.Intake;
import tepidarium.ingest.RejectLog;
import tepidarium.live.Watch;
import tepidarium.records.RejectRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.series.ReadingSink;
import tepidarium.series.SerialSink;
import tepidarium.series.WriteResult;

/**
 * Stores readings from sensors and from imported files, and tells the other parts of them.
 *
 * @param rejects the log of messages that could not be read
 * @param intake takes messages from the broker
 * @param imports imports files
 */
record SensorIntake(RejectLog rejects, Intake intake, ImportJobs imports) {

  /** Connects the intake to the store. The spool starts too, if there is one. */
  static SensorIntake start(
      Config config,
      MessageReading messages,
      Stores stores,
      ContainerData containers,
      SensorBook sensors,
      Watch watch,
      ClockTrust trust,
      Clock clock,
      RunningParts running) {
    Storage storage = stores.storage();
    ReadingSink sink = new SerialSink(storage.sink(containers.rollups(), containers.sensorDays()));
    ArrivalRecords arrivals = arrivalRecords(config, stores, containers, running);
    IngestCounters counters = new IngestCounters(arrivals.rejects(), config.rootTopic(), clock);
    running.add(storage::stopForwarding);
    Intake intake =
        running.add(
            new Intake(
                messages.decoder(),
                messages.sensorLimit(),
                sink,
                counters,
                new Buttons(containers.register()),
                arrivals.faults(),
                messages.heard(),
                stored -> {
                  trust.confirmBy(stored.readings(), stored.arrivedAt());
                  watch.stored(stored.readings(), stored.arrivedAt());
                  sensors.reported(stored.statuses(), stored.arrivedAt());
                }));
    storage.start(counters, watch);
    ImportJobs imports =
        running.add(
            new ImportJobs(
                config.data().resolve("imports"),
                importSink(sink, watch),
                config.timeZone(),
                clock));
    return new SensorIntake(arrivals.rejects(), intake, imports);
  }

  private static ArrivalRecords arrivalRecords(
      Config config, Stores stores, ContainerData containers, RunningParts running) {
    RejectLog rejects = new RejectRecords(stores.records());
    return config.keeping().recordsElsewhere()
        ? ArrivalRecords.deferred(rejects, containers.arrivalFaults(), running)
        : ArrivalRecords.direct(rejects, containers.arrivalFaults());
  }

  /** Stores imported readings, and updates newest values and heat. */
  private static ReadingSink importSink(ReadingSink sink, Watch watch) {
    return batch -> {
      WriteResult result = sink.write(batch);
      watch.imported(result.accepted(batch));
      return result;
    };
  }
}
