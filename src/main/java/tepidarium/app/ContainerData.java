package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import tepidarium.container.Register;
import tepidarium.fault.ArrivalFaultStore;
import tepidarium.history.CalibratedReadings;
import tepidarium.ingest.SensorLimit;
import tepidarium.live.HeatSoFar;
import tepidarium.live.LatestValues;
import tepidarium.records.ContainerRecords;
import tepidarium.records.FaultRecords;
import tepidarium.rollup.ContainerHistory;
import tepidarium.rollup.FaultHistory;
import tepidarium.rollup.HourlyRollups;
import tepidarium.rollup.SensorDays;
import tepidarium.series.SensorSummary;

/**
 * The containers and their readings, read through the open stores.
 *
 * @param register containers, placements and calibration, in memory
 * @param calibrated readings with placement and calibration applied
 * @param rollups hourly sums
 * @param history answers for long spans, from hourly sums and readings
 * @param heatSoFar heat of each container since its first reading
 * @param latestValues the newest reading of each sensor
 * @param sensorDays fault searches by sensor and day
 * @param arrivalFaults faults noticed when messages arrived
 * @param faults answers about faults
 */
record ContainerData(
    Register register,
    CalibratedReadings calibrated,
    HourlyRollups rollups,
    ContainerHistory history,
    HeatSoFar heatSoFar,
    LatestValues latestValues,
    SensorDays sensorDays,
    ArrivalFaultStore arrivalFaults,
    FaultHistory faults) {

  static ContainerData over(Stores stores, Duration maxGap, Clock clock) {
    Storage storage = stores.storage();
    Register register = new Register(new ContainerRecords(stores.records()));
    CalibratedReadings calibrated = new CalibratedReadings(storage.source(), register, maxGap);
    HourlyRollups rollups = new HourlyRollups(calibrated, register, stores.rollups(), clock);
    ContainerHistory history = new ContainerHistory(rollups, calibrated);
    SensorDays sensorDays =
        new SensorDays(storage.source(), stores.rollups().sensorDays(), rollups::rawFrom, clock);
    ArrivalFaultStore arrivalFaults = new FaultRecords(stores.records());
    return new ContainerData(
        register,
        calibrated,
        rollups,
        history,
        new HeatSoFar(history, calibrated),
        new LatestValues(register, maxGap, storage.summaries()),
        sensorDays,
        arrivalFaults,
        new FaultHistory(sensorDays, arrivalFaults, register, calibrated, clock));
  }

  /** Time of the newest reading of any sensor; empty without readings. */
  Optional<Instant> newestReading() {
    return latestValues.sensors().stream()
        .flatMap(sensor -> latestValues.of(sensor).stream())
        .map(SensorSummary::last)
        .max(Instant::compareTo);
  }

  /** Declares the sensors that have readings to the limit on new names. */
  void declareSensors(SensorLimit names, Clock clock) {
    names.know(
        latestValues.sensors(),
        sensor ->
            latestValues.of(sensor).isPresent()
                || register.placeOf(sensor, clock.instant()).isPresent());
  }
}
