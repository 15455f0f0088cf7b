package tepidarium.app.demo;

import static tepidarium.container.ContainerKind.BAG;
import static tepidarium.container.ContainerKind.BOX;
import static tepidarium.container.ContainerKind.JAR;
import static tepidarium.container.ContainerKind.TRAY;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import tepidarium.container.ContainerKind;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * An invented school garden with sealed containers and sensors. It has an example of each common
 * fault. Its data is the same at every run, relative to now.
 *
 * @param room the sensor outside the containers
 */
record Garden(DemoCalendar calendar, List<SimulatedContainer> containers, SimulatedSensor room) {
  private static final long SEED = 20_190;
  private static final Set<Quantity> ALL = EnumSet.allOf(Quantity.class);
  private static final Set<Quantity> USUAL =
      EnumSet.of(Quantity.TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT, Quantity.BATTERY);
  private static final Set<Quantity> TEMPERATURE_ONLY =
      EnumSet.of(Quantity.TEMPERATURE, Quantity.BATTERY);
  private static final Set<Quantity> TEMPERATURE_HUMIDITY =
      EnumSet.of(Quantity.TEMPERATURE, Quantity.HUMIDITY);

  Garden {
    containers = List.copyOf(containers);
  }

  static Garden of(DemoCalendar calendar) {
    return new Builder(calendar).build();
  }

  /** Returns all sensors; those in containers come first. */
  List<SimulatedSensor> sensors() {
    return Stream.concat(
            containers.stream().flatMap(container -> container.sensors().stream()), Stream.of(room))
        .toList();
  }

  /** Creates the containers and sensors, each with its own source of noise. */
  private static final class Builder {
    private static final String CUPBOARD = "airing cupboard";
    private static final String MAT = "heat mat";
    private static final String BOILER = "shelf by the boiler";
    private static final String LAMP = "lamp, always on";
    private static final Map<String, String> ROOMS =
        Map.of(
            CUPBOARD, "Back room",
            BOILER, "Back room",
            MAT, "Bench by the door",
            LAMP, "Bench by the door");
    private static final int[] CHECK_DAYS_AGO = {25, 18, 11, 4};
    private static final LocalTime FIRST_CHECK = LocalTime.of(10, 0);
    private static final int MINUTES_PER_CHECK = 12;

    private final DemoCalendar calendar;
    private final Noise noise;
    private final SimulatedTemperatures temperatures;
    private final SimulatedHumidity humidity;
    private final List<SimulatedContainer> containers = new ArrayList<>();

    Builder(DemoCalendar calendar) {
      this.calendar = calendar;
      this.noise = new Noise(SEED, calendar.start());
      this.temperatures = new SimulatedTemperatures(calendar, noise);
      this.humidity = new SimulatedHumidity(calendar);
    }

    Garden build() {
      Instant now = calendar.now();
      SimulatedSensor.Faults late =
          new SimulatedSensor.Faults(null, null, spanEnding(now.minus(Duration.ofDays(3)), 7));
      SimulatedSensor.Faults lost =
          new SimulatedSensor.Faults(null, spanEnding(now.minus(Duration.ofDays(5)), 5), null);
      SimulatedSensor.Faults silent =
          new SimulatedSensor.Faults(now.minus(Duration.ofDays(2)), null, null);
      SimulatedSensor.Faults none = SimulatedSensor.Faults.NONE;

      Climate cupboard = dark(temperatures::cupboard, sealedHumidity(1));
      Climate lowShelf = dark(at -> temperatures.cupboard(at) - 0.2, sealedHumidity(2));
      Climate highShelf = dark(at -> temperatures.cupboard(at) + 0.3, sealedHumidity(3));
      addContainer(JAR, "Cacao jar 1", CUPBOARD, cupboard, this::twoSensors);
      addContainer(
          JAR,
          "Cacao jar 2",
          CUPBOARD,
          lowShelf,
          inside -> oneSensor("shed-jar-2", inside, 0.3, none));
      addContainer(
          JAR,
          "Lychee jar",
          CUPBOARD,
          highShelf,
          inside -> oneSensor("shed-jar-3", inside, 0, late));
      addContainer(
          BAG,
          "Cacao bag",
          CUPBOARD,
          cupboard,
          inside -> oneSensor("shed-bag-1", inside, 0, silent));

      Climate dryMat = dark(temperatures::mat, humidity.drying(noise.independent(50)));
      // The same temperature as tray A, so that a comparison finds no difference.
      Climate wetMat = dark(temperatures::mat, sealedHumidity(4));
      addContainer(
          TRAY, "Lychee tray A", MAT, dryMat, inside -> oneSensor("shed-tray-1", inside, 0, none));
      addContainer(
          TRAY, "Lychee tray B", MAT, wetMat, inside -> oneSensor("shed-tray-2", inside, 0, lost));

      Signal leak = new DawnLeak(calendar, noise.independent(52));
      Climate boiler = new Climate(temperatures::boiler, sealedHumidity(5), leak);
      addContainer(
          BOX,
          "Paper-lined box",
          BOILER,
          boiler,
          inside -> oneSensor("shed-box-1", inside, 0, none));

      Climate lamp = dark(temperatures::lampBox, sealedHumidity(6));
      addContainer(
          BOX,
          "Trial box",
          LAMP,
          lamp,
          inside -> List.of(sensor("shed-trial", inside, ALL, 0, none)));

      Climate shed = dark(temperatures::room, humidity.room(temperatures, noise.independent(53)));
      return new Garden(
          calendar, containers, sensor("shed-room", shed, TEMPERATURE_HUMIDITY, 0, none));
    }

    private static Climate dark(Signal temperatureC, Signal humidityPercent) {
      return new Climate(temperatureC, humidityPercent, at -> 0);
    }

    private Signal sealedHumidity(int number) {
      return humidity.sealed(noise.independent(60 + number));
    }

    private static Span spanEnding(Instant end, int hours) {
      return new Span(end.minus(Duration.ofHours(hours)), end);
    }

    /** Adds a container. It is checked on the same mornings as the one before, 12 min later. */
    private void addContainer(
        ContainerKind kind,
        String name,
        String heatSource,
        Climate closed,
        Function<Climate, List<SimulatedSensor>> sensors) {
      List<ContainerCheck> checks = checks(containers.size());
      Climate inside =
          new Climate(
              at -> closed.temperatureC().at(at) - ContainerCheck.coolingC(checks, at),
              at -> closed.humidityPercent().at(at) - ContainerCheck.dryingPercent(checks, at),
              at -> closed.illuminanceLux().at(at) + ContainerCheck.addedLux(checks, at));
      containers.add(
          new SimulatedContainer(
              name,
              kind,
              heatSource,
              Objects.requireNonNull(ROOMS.get(heatSource)),
              checks,
              sensors.apply(inside)));
    }

    private List<ContainerCheck> checks(int number) {
      LocalTime time = FIRST_CHECK.plusMinutes((long) number * MINUTES_PER_CHECK);
      return IntStream.of(CHECK_DAYS_AGO)
          .mapToObj(
              daysAgo -> {
                Instant from = calendar.at(daysAgo, time);
                double lux = noise.between(150, 400, 1000L * number + daysAgo);
                return new ContainerCheck(new Span(from, from.plus(ContainerCheck.LENGTH)), lux);
              })
          .toList();
    }

    private List<SimulatedSensor> oneSensor(
        String name, Climate inside, double biasC, SimulatedSensor.Faults faults) {
      return List.of(sensor(name, inside, USUAL, biasC, faults));
    }

    /**
     * Creates two sensors: one among the seeds, and a thermometer under the lid, where it is 0.3 °C
     * cooler.
     */
    private List<SimulatedSensor> twoSensors(Climate inside) {
      Climate lid = dark(at -> inside.temperatureC().at(at) - 0.3, inside.humidityPercent());
      return List.of(
          sensor("shed-jar-1", inside, USUAL, 0, SimulatedSensor.Faults.NONE),
          sensor("shed-jar-1-lid", lid, TEMPERATURE_ONLY, 0, SimulatedSensor.Faults.NONE));
    }

    private SimulatedSensor sensor(
        String name,
        Climate climate,
        Set<Quantity> quantities,
        double biasC,
        SimulatedSensor.Faults faults) {
      Noise ownNoise = noise.independent(100 + Math.floorMod(name.hashCode(), 10_000));
      return new SimulatedSensor(new SensorId(name), climate, quantities, biasC, faults, ownNoise);
    }
  }
}
