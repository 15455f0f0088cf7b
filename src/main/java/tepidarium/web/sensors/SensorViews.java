package tepidarium.web.sensors;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.QuantityCorrection;
import tepidarium.calibration.Settling;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.container.SensorCorrection;
import tepidarium.live.LatestValues;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.reading.TimeWeighted;
import tepidarium.sensor.SensorBook;
import tepidarium.sensor.SensorDetails;
import tepidarium.series.ReadingSource;
import tepidarium.series.SensorSummary;
import tepidarium.web.NotFound;

/** Creates the JSON of sensors. Thread-safe. */
public final class SensorViews {
  /** Longest wait for the activity of one sensor, and of all of them together. */
  private static final Duration WAIT = Duration.ofSeconds(1);

  private final Register register;
  private final SensorBook book;
  private final LatestValues latestValues;
  private final ReadingSource readings;
  private final SensorActivities activities;
  private final Duration maxGap;

  public SensorViews(
      Register register,
      SensorBook book,
      LatestValues latestValues,
      ReadingSource readings,
      SensorActivities activities,
      Duration maxGap) {
    this.maxGap = maxGap;
    this.register = register;
    this.book = book;
    this.latestValues = latestValues;
    this.readings = readings;
    this.activities = activities;
  }

  /** The JSON of a sensor, with its activity if that is known already. */
  public SensorJson sensor(SensorId sensor) {
    return SensorJson.of(
        sensor,
        latestValues.of(sensor),
        readings.uncertain().get(sensor),
        register,
        book,
        activities.json(sensor),
        activities.faults(sensor));
  }

  /** Forgets the summary of the sensor's faults after a decision. */
  void faultsDecided(SensorId sensor) {
    activities.invalidate(sensor);
  }

  /** Changes what the grower entered about a sensor; its activity is calculated again. */
  void change(SensorId sensor, UnaryOperator<SensorDetails> change) {
    book.change(sensor, change);
    activities.invalidate(sensor);
  }

  /**
   * Returns a sensor that has sent a reading, was placed or was calibrated.
   *
   * @throws NotFound if it is none of these
   */
  SensorJson existing(SensorId sensor) {
    boolean known =
        latestValues.of(sensor).isPresent()
            || readings.uncertain().containsKey(sensor)
            || !register.placementsOf(sensor).isEmpty()
            || !register.calibrationPoints(sensor).isEmpty()
            || !register.calibration(sensor).equals(Calibration.NONE)
            || !book.details(sensor).equals(SensorDetails.NONE);
    if (!known) {
      throw new NotFound("there is no sensor \"" + sensor + '"');
    }
    activities.load(Set.of(sensor), WAIT);
    return sensor(sensor);
  }

  /**
   * The calibration points of a sensor and the corrections from them.
   *
   * @throws NotFound if there is no such sensor
   */
  CalibrationJson calibration(SensorId sensor, Instant now) {
    existing(sensor);
    SensorCorrection correction = register.correction(sensor);
    Map<Quantity, Samples> lastDay =
        correction.dated().isEmpty() ? Map.of() : readings.read(sensor, lastDay(now));
    List<CalibrationJson.CorrectionJson> corrections = new ArrayList<>();
    for (Quantity quantity : Quantity.values()) {
      QuantityCorrection dated = correction.dated().get(quantity);
      if (dated != null) {
        Samples raw = lastDay.getOrDefault(quantity, Samples.EMPTY);
        double newest = newest(sensor, quantity, dated);
        corrections.add(
            CalibrationJson.CorrectionJson.of(
                quantity,
                dated,
                CalibrationJson.NowJson.of(dated, now, newest),
                meanOfLastDay(raw, now),
                meanOfLastDay(dated.corrected(raw), now)));
      }
    }
    return CalibrationJson.of(sensor, register.calibrationPoints(sensor), corrections);
  }

  /**
   * Whether the newest readings of a quantity are steady.
   *
   * @throws NotFound if there is no such sensor
   */
  SettlingJson settling(SensorId sensor, Quantity quantity, Instant now) {
    existing(sensor);
    Samples raw =
        readings
            .read(sensor, new Span(now.minus(Settling.OLDEST), now))
            .getOrDefault(quantity, Samples.EMPTY);
    return SettlingJson.of(quantity, Settling.of(quantity, raw, now));
  }

  /** The newest raw reading; that of the last calibration point if there is none. */
  private double newest(SensorId sensor, Quantity quantity, QuantityCorrection dated) {
    SensorSummary.@Nullable Value latest =
        latestValues.of(sensor).map(heard -> heard.latest().get(quantity)).orElse(null);
    return latest == null ? dated.lastPoint().reading() : latest.value();
  }

  private static Span lastDay(Instant now) {
    return new Span(now.minus(Duration.ofDays(1)), now);
  }

  private @Nullable Double meanOfLastDay(Samples samples, Instant now) {
    double mean = TimeWeighted.of(samples, lastDay(now), maxGap).mean();
    return Double.isNaN(mean) ? null : mean;
  }

  /** The instant of the sensor's earliest reading; null if it has sent none. */
  @Nullable Instant firstHeard(SensorId sensor) {
    return latestValues.of(sensor).map(SensorSummary::first).orElse(null);
  }

  /** Every sensor that has sent a reading or was placed, by name. */
  Set<SensorId> all() {
    Set<SensorId> all = new TreeSet<>(latestValues.sensors());
    all.addAll(readings.uncertain().keySet());
    register.placementsIn(ContainerId.ROOM).stream().map(Placement::sensor).forEach(all::add);
    for (Container container : register.containers()) {
      register.placementsIn(container.id()).stream().map(Placement::sensor).forEach(all::add);
    }
    return all;
  }

  /** Those that are in the room or have no place at this moment, and are not retired. */
  Set<SensorId> outside(Instant now) {
    Set<SensorId> outside = all();
    outside.removeIf(
        sensor ->
            book.details(sensor).retiredAt() != null
                || register.placeOf(sensor, now).filter(place -> !isRoom(place)).isPresent());
    return outside;
  }

  /**
   * Those that are in a container, or in the room, at this moment.
   *
   * @throws InvalidInput if there is no such container
   */
  Set<SensorId> inside(ContainerId place, Instant now) {
    if (!isRoom(place) && register.container(place).isEmpty()) {
      throw new InvalidInput(
          "container",
          "must be the id of a container, or room",
          InputRule.NOT_FOUND.with(place.value()));
    }
    return register.placementsIn(place).stream()
        .map(Placement::sensor)
        .filter(sensor -> register.placeOf(sensor, now).filter(place::equals).isPresent())
        .collect(Collectors.toSet());
  }

  private static boolean isRoom(ContainerId place) {
    return place.equals(ContainerId.ROOM);
  }

  /**
   * The JSON of sensors. The activity of a sensor may be missing if working out all of them takes
   * longer than a second.
   *
   * @param activity whether to calculate activities that are not known yet
   */
  List<SensorJson> sensors(Set<SensorId> sensors, boolean activity) {
    if (activity) {
      activities.load(sensors, WAIT);
    }
    return sensors.stream().map(this::sensor).toList();
  }
}
