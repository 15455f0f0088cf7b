package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.StringJoiner;
import java.util.function.DoubleUnaryOperator;

/**
 * Ten days of a shelf whose truth is known: two bags on a mat at 33 °C, two in a box with a lamp
 * that follows the room with a time constant of six hours, 12.5 °C above it, and a room sensor.
 */
public final class BenchShelf {
  public static final double LAMP_RISE_C = 12.5;
  public static final double LAMP_TAU_HOURS = 6;
  private static final double TURN_PER_HOUR = 2 * Math.PI / 24;
  private static final int DAYS = 10;
  private static final int MINUTES = 15;

  private final Grower grower;
  private final Publisher sensor;
  private final Instant end = Instant.now().truncatedTo(ChronoUnit.MINUTES);
  private final Instant start = end.minus(Duration.ofDays(DAYS));
  private final SplittableRandom noise = new SplittableRandom(17);

  public BenchShelf(Grower grower, Publisher sensor) {
    this.grower = grower;
    this.sensor = sensor;
  }

  /** Sets it up and waits until all of it is stored. */
  public void fill() {
    container("Mat 1", "mat", BenchShelf::matC);
    container("Mat 2", "mat", BenchShelf::matC);
    container("Lamp 1", "lamp", BenchShelf::lampC);
    container("Lamp 2", "lamp", BenchShelf::lampC);
    send("room-air", "room", BenchShelf::roomC);
    long readings = 5L * DAYS * 24 * 60 / MINUTES;
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> grower.count("stored") >= readings && grower.count("waiting") == 0);
  }

  /** The instant of the last reading. */
  public Instant end() {
    return end;
  }

  private static double roomC(double hour) {
    return 18 + 2.5 * Math.sin(TURN_PER_HOUR * hour);
  }

  private static double matC(double hour) {
    return 33 + 0.3 * Math.sin(TURN_PER_HOUR * hour);
  }

  /** The solution of the first-order equation for a room that follows a sine. */
  private static double lampC(double hour) {
    double turn = TURN_PER_HOUR * LAMP_TAU_HOURS;
    double damped = 2.5 / Math.sqrt(1 + turn * turn);
    return 18 + LAMP_RISE_C + damped * Math.sin(TURN_PER_HOUR * hour - Math.atan(turn));
  }

  private void container(String name, String heatSource, DoubleUnaryOperator temperatureC) {
    String id = grower.container(name, ",\"heatSource\":\"" + heatSource + '"');
    send("in-" + id, id, temperatureC);
  }

  private void send(String name, String place, DoubleUnaryOperator temperatureC) {
    grower.place(name, place, start);
    grower.api().put("/api/sensors/" + name + "/calibration", "{\"temperatureError\":0.1}");
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (Instant at = start; at.isBefore(end); at = at.plus(Duration.ofMinutes(MINUTES))) {
      double hour = Duration.between(start, at).toMinutes() / 60.0;
      double read = temperatureC.applyAsDouble(hour) + 0.05 * noise.nextGaussian();
      backlog.add(String.format(Locale.ROOT, "{\"temperature\":%.2f,\"at\":\"%s\"}", read, at));
    }
    sensor.send("tepidarium/" + name, backlog.toString());
  }
}
