package tepidarium.rollup;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

/** Test fixture: hourly rollups over readings in memory, with one container and its sensor. */
public final class Bench {
  public static final Instant START = Instant.parse("2026-03-01T00:17:00Z");
  static final Duration GAP = Duration.ofMinutes(30);
  public static final SensorId SENSOR = new SensorId("s");

  public final MemoryReadings readings = new MemoryReadings();
  final MemoryHours hours = new MemoryHours();
  public final Register register = new Register(new MemoryContainers());
  public final CalibratedReadings calibrated = new CalibratedReadings(readings, register, GAP);
  final HourlyRollups rollups;
  final RollupSink sink;
  public final ContainerHistory history;
  private final ContainerId id;

  public Bench(Instant now) {
    rollups = new HourlyRollups(calibrated, register, hours, Clock.fixed(now, ZoneOffset.UTC));
    sink = new RollupSink(rollups, readings);
    history = new ContainerHistory(rollups, calibrated);
    id = register.add(settings(12, 33.0), START).id();
    register.place(SENSOR, id, START, null);
  }

  static ContainerSettings settings(double base, Double ceiling) {
    return new ContainerSettings("Jar", ContainerKind.JAR, null, base, ceiling, Band.DEFAULT);
  }

  public Container container() {
    return register.container(id).orElseThrow();
  }

  public static Reading reading(
      long secondsFromStart, double temperature, double humidity, double lux) {
    return Readings.ofAir(
        SENSOR, START.plusSeconds(secondsFromStart), temperature, humidity, lux, null);
  }

  public void store(Reading... batch) {
    sink.write(List.of(batch));
  }
}
