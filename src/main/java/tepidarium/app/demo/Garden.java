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
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import tepidarium.container.ContainerKind;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * The propagation shed of an invented school garden, with one example of each thing that goes wrong
 * with sealed containers and cheap sensors. The same at every run, relative to now.
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
  private static final Set<Quantity> AIR = EnumSet.of(Quantity.TEMPERATURE, Quantity.HUMIDITY);

  Garden {
    containers = List.copyOf(containers);
  }

  static Garden of(DemoCalendar calendar) {
    return new Planner(calendar).garden();
  }

  /** All sensors, those in containers first. */
  List<SimulatedSensor> nodes() {
    return Stream.concat(
            containers.stream().flatMap(container -> container.nodes().stream()), Stream.of(room))
        .toList();
  }

  /** Lays the garden out; numbers each source of chance. */
  private static final class Planner {
    private static final String CUPBOARD = "airing cupboard";
    private static final String MAT = "heat mat";
    private static final String BOILER = "shelf by the boiler";
    private static final String LAMP = "lamp, always on";
    private static final int[] CHECK_DAYS_AGO = {25, 18, 11, 4};
    private static final LocalTime FIRST_CHECK = LocalTime.of(10, 0);
    private static final int MINUTES_PER_CHECK = 12;

    private final DemoCalendar calendar;
    private final Noise noise;
    private final SimulatedTemperatures temperatures;
    private final SimulatedHumidity moisture;
    private final List<SimulatedContainer> containers = new ArrayList<>();

    Planner(DemoCalendar calendar) {
      this.calendar = calendar;
      this.noise = new Noise(SEED, calendar.start());
      this.temperatures = new SimulatedTemperatures(calendar, noise);
      this.moisture = new SimulatedHumidity(calendar);
    }

    Garden garden() {
      Instant now = calendar.now();
      SimulatedSensor.Faults late =
          new SimulatedSensor.Faults(null, null, ended(now.minus(Duration.ofDays(3)), 7));
      SimulatedSensor.Faults lost =
          new SimulatedSensor.Faults(null, ended(now.minus(Duration.ofDays(5)), 5), null);
      SimulatedSensor.Faults silent =
          new SimulatedSensor.Faults(now.minus(Duration.ofDays(2)), null, null);
      SimulatedSensor.Faults none = SimulatedSensor.Faults.NONE;

      Climate cupboard = dark(temperatures::cupboard, wet(1));
      Climate lowShelf = dark(at -> temperatures.cupboard(at) - 0.2, wet(2));
      Climate highShelf = dark(at -> temperatures.cupboard(at) + 0.3, wet(3));
      plant(JAR, "Cacao jar 1", CUPBOARD, cupboard, this::twoNodes);
      plant(JAR, "Cacao jar 2", CUPBOARD, lowShelf, in -> one("shed-jar-2", in, 0.3, none));
      plant(JAR, "Lychee jar", CUPBOARD, highShelf, in -> one("shed-jar-3", in, 0, late));
      plant(BAG, "Cacao bag", CUPBOARD, cupboard, in -> one("shed-bag-1", in, 0, silent));

      Climate dryMat = dark(temperatures::mat, moisture.drying(noise.other(50)));
      // As warm as the first, so that a comparison of the two has nothing to find.
      Climate wetMat = dark(temperatures::mat, wet(4));
      plant(TRAY, "Lychee tray A", MAT, dryMat, in -> one("shed-tray-1", in, 0, none));
      plant(TRAY, "Lychee tray B", MAT, wetMat, in -> one("shed-tray-2", in, 0, lost));

      Signal leak = new DawnLeak(calendar, noise.other(52));
      Climate boiler = new Climate(temperatures::boiler, wet(5), leak);
      plant(BOX, "Paper-lined box", BOILER, boiler, in -> one("shed-box-1", in, 0, none));

      Climate lamp = dark(temperatures::lampBox, wet(6));
      plant(BOX, "Trial box", LAMP, lamp, in -> List.of(node("shed-trial", in, ALL, 0, none)));

      Climate shed = dark(temperatures::room, moisture.room(temperatures, noise.other(53)));
      return new Garden(calendar, containers, node("shed-room", shed, AIR, 0, none));
    }

    private static Climate dark(Signal temperatureC, Signal humidityPercent) {
      return new Climate(temperatureC, humidityPercent, at -> 0);
    }

    private Signal wet(int number) {
      return moisture.sealed(noise.other(60 + number));
    }

    private static Span ended(Instant end, int hours) {
      return new Span(end.minus(Duration.ofHours(hours)), end);
    }

    /** Adds a container; its checks follow those of the container before on the same mornings. */
    private void plant(
        ContainerKind kind,
        String name,
        String heatSource,
        Climate closed,
        Function<Climate, List<SimulatedSensor>> nodes) {
      List<ContainerCheck> checks = checks(containers.size());
      Climate inside =
          new Climate(
              at -> closed.temperatureC().at(at) - ContainerCheck.cooledBy(checks, at),
              at -> closed.humidityPercent().at(at) - ContainerCheck.driedBy(checks, at),
              at -> closed.illuminanceLux().at(at) + ContainerCheck.lux(checks, at));
      containers.add(new SimulatedContainer(name, kind, heatSource, checks, nodes.apply(inside)));
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

    private List<SimulatedSensor> one(
        String name, Climate inside, double readsHighC, SimulatedSensor.Faults faults) {
      return List.of(node(name, inside, USUAL, readsHighC, faults));
    }

    /** One among the seeds, and a bare thermometer under the lid, where it is a little cooler. */
    private List<SimulatedSensor> twoNodes(Climate inside) {
      Climate lid = dark(at -> inside.temperatureC().at(at) - 0.3, inside.humidityPercent());
      return List.of(
          node("shed-jar-1", inside, USUAL, 0, SimulatedSensor.Faults.NONE),
          node("shed-jar-1-lid", lid, TEMPERATURE_ONLY, 0, SimulatedSensor.Faults.NONE));
    }

    private SimulatedSensor node(
        String name,
        Climate climate,
        Set<Quantity> measures,
        double high,
        SimulatedSensor.Faults faults) {
      Noise own = noise.other(100 + Math.floorMod(name.hashCode(), 10_000));
      return new SimulatedSensor(new SensorId(name), climate, measures, high, faults, own);
    }
  }
}
