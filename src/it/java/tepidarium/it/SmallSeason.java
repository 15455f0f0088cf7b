package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.StringJoiner;
import java.util.function.IntToDoubleFunction;

/**
 * Ten days of a season whose figures can be worked by hand. A closet at 31 °C with twelve hours at
 * 27.5 °C on its third day and three short flashes of light, one of them at a check; a mat at 33
 * °C; a tray without a sensor. Readings every 15 minutes. Three sowings of lychee: 40 seeds in the
 * closet (6 germinated and 5 mouldy by day 4, 16 more by day 8), 40 in the tray (8 by day 8), 20 on
 * the mat from day 5½ (12 by day 9).
 */
public final class SmallSeason {
  public static final int DAYS = 10;
  private static final int STEPS_PER_HOUR = 4;

  private final Grower grower;
  private final Publisher sensor;
  private final Instant start =
      Instant.now().truncatedTo(ChronoUnit.HOURS).minus(Duration.ofDays(DAYS));

  public SmallSeason(Grower grower, Publisher sensor) {
    this.grower = grower;
    this.sensor = sensor;
  }

  /** Fills a service with one, once it has reached its broker. */
  public static SmallSeason in(RunningService service) {
    Grower grower = new Grower(service.api());
    grower.awaitBroker();
    SmallSeason season = new SmallSeason(grower, Publisher.to(service.mqttPort()));
    season.fill();
    return season;
  }

  /** So many days after its start, a full hour. */
  public Instant day(double days) {
    return start.plus(Duration.ofMinutes(Math.round(days * 1_440)));
  }

  /** Sets it up and waits until all of it is stored. */
  public void fill() {
    String closet = grower.container("Closet", ",\"heatSource\":\"closet\"");
    String mat = grower.container("Mat bag", ",\"heatSource\":\"mat\"");
    String tray = grower.container("Tray", "");
    send(closet, SmallSeason::closetC, SmallSeason::flash);
    send(mat, step -> 33, step -> 0);
    seeds(closet, tray, mat);
    long readings = 2L * (DAYS * 24 * STEPS_PER_HOUR + 1);
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> grower.count("stored") >= readings && grower.count("waiting") == 0);
  }

  private static double closetC(int step) {
    int coldFrom = 2 * 24 * STEPS_PER_HOUR + 6 * STEPS_PER_HOUR;
    return step >= coldFrom && step <= coldFrom + 12 * STEPS_PER_HOUR ? 27.5 : 31;
  }

  /** 40 lux in one reading at the end of the second, third and fourth day. */
  private static double flash(int step) {
    int day = 24 * STEPS_PER_HOUR;
    return step == 2 * day || step == 3 * day || step == 4 * day ? 40 : 0;
  }

  private void send(String place, IntToDoubleFunction temperatureC, IntToDoubleFunction lux) {
    String name = "in-" + place;
    grower.place(name, place, start);
    StringJoiner backlog = new StringJoiner(",", "[", "]");
    for (int step = 0; step <= DAYS * 24 * STEPS_PER_HOUR; step++) {
      backlog.add(
          String.format(
              Locale.ROOT,
              "{\"temperature\":%s,\"humidity\":95,\"light\":%s,\"at\":\"%s\"}",
              temperatureC.applyAsDouble(step),
              lux.applyAsDouble(step),
              start.plus(Duration.ofMinutes(60L * step / STEPS_PER_HOUR))));
    }
    sensor.send("tepidarium/" + name, backlog.toString());
  }

  private void seeds(String closet, String tray, String mat) {
    Api api = grower.api();
    String lot =
        api.post(
                "/api/lots",
                "{\"species\":\"lychee\",\"seeds\":120,\"gatheredAt\":\"%s\",\"from\":\"plant\"}"
                    .formatted(day(-1)))
            .get("id")
            .asText();
    sow(lot, "In the closet", closet, 40, day(0));
    sow(lot, null, tray, 40, day(0));
    sow(lot, "On the mat", mat, 20, day(5.5));
    api.post(
        "/api/containers/" + closet + "/openings",
        "{\"from\":\"%s\",\"until\":\"%s\"}"
            .formatted(day(4).minusSeconds(60), day(4).plusSeconds(600)));
    check("1-1", day(4), 6, ",\"culled\":[{\"count\":5,\"reason\":\"mould\"}]");
    check("1-1", day(8), 16, ",\"pottedOn\":4");
    check("2-1", day(8), 8, "");
    check("3-1", day(9), 12, "");
  }

  private void sow(String lot, String name, String container, int seeds, Instant at) {
    grower
        .api()
        .post(
            "/api/sowings",
            "{\"lot\":%s,\"name\":%s,\"groups\":[{\"container\":\"%s\",\"seeds\":%d}],\"at\":\"%s\"}"
                .formatted(lot, name == null ? null : '"' + name + '"', container, seeds, at));
  }

  private void check(String group, Instant at, int germinated, String more) {
    grower
        .api()
        .post(
            "/api/groups/" + group + "/checks",
            "{\"germinated\":%d,\"at\":\"%s\"%s}".formatted(germinated, at, more));
  }
}
