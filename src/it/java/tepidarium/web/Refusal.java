package tepidarium.web;

import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** A request that makes no sense, and the word that the answer must say about it. */
record Refusal(int status, String method, String path, @Nullable String body, String word) {
  private static final String JAR = "/api/containers/jar-1";
  private static final String PROBE = "/api/sensors/" + Grower.SENSOR;

  static Stream<Refusal> all() {
    return Stream.of(bodies(), unknown(), parameters()).flatMap(refusals -> refusals);
  }

  private static Stream<Refusal> bodies() {
    String add = "/api/containers";
    return Stream.of(
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"colour\":\"red\"}", "\"colour\""),
        post(add, "{\"kind\":\"jar\"}", "name is missing"),
        post(add, "{\"name\":\" \",\"kind\":\"jar\"}", "name must have"),
        post(add, "{\"name\":\"A\"}", "kind must be"),
        post(add, "{\"name\":\"A\",\"kind\":\"bucket\"}", "kind must be bag, box, jar or tray"),
        post(add, "{\"name\":7,\"kind\":\"jar\"}", "\"name\" has a value of the wrong kind"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"base\":\"15\"}", "\"base\""),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"base\":900}", "base must be between"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"ceiling\":10}", "ceiling 10.0"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"band\":[1]}", "\"band\""),
        post(add, band("{\"temperature\":{\"low\":40,\"high\":30}}"), "band.temperature.high"),
        post(add, band("{\"temperature\":{\"low\":30,\"hihg\":33}}"), "band.temperature.hihg"),
        post(add, band("{\"light\":{\"low\":1}}"), "band.light"),
        post(add, "{\"name\":\"A\",\"name\":\"B\",\"kind\":\"jar\"}", "field twice"),
        post(add, "name=A&kind=jar", "not JSON"),
        post(add, "{\"name\":\"A\",", "not JSON"),
        post(add, "null", "JSON object"),
        post(add, "[]", "JSON object"),
        post(add, "", "name is missing"),
        new Refusal(400, "PUT", JAR, "{\"name\":\"A\",\"kind\":null}", "kind must be"),
        post(JAR + "/openings", "{\"minutes\":0}", "minutes"),
        post(JAR + "/openings", "{\"minutes\":\"ten\"}", "\"minutes\""),
        post(JAR + "/openings", "{\"minutes\":241}", "at most 240"),
        post(
            JAR + "/openings", "{\"minutes\":5,\"until\":\"2026-03-01T06:00:00Z\"}", "one of them"),
        post(
            JAR + "/openings", "{\"until\":\"2026-03-01T06:00:00Z\"}", "until must lie after from"),
        post(JAR + "/openings", "{\"until\":\"noon\"}", "until must be an instant"),
        post(JAR + "/openings/suggested/decline", "{}", "from and until are needed"),
        post(JAR + "/openings/suggested/decline", backwards(), "until must lie after from"),
        put(PROBE + "/placement", "{\"container\":\"attic\"}", "no container \"attic\""),
        put(PROBE + "/placement", "{\"container\":\"No Such\"}", "no container \"No Such\""),
        put(PROBE + "/placement", "{\"container\":\"room\",\"from\":\"noon\"}", "from must be"),
        put(PROBE + "/placement", "{\"container\":\"room\",\"from\":5}", "\"from\""),
        put(PROBE + "/placement", stretch(), "until"),
        put(PROBE + "/calibration", "{\"temperatureOffset\":50}", "temperatureOffset"),
        put(PROBE + "/calibration", "{\"temperatureError\":-1}", "temperatureError"),
        put(PROBE + "/calibration", "{\"offset\":1}", "\"offset\""),
        put("/api/sensors/no%20space/placement", "{}", "no space"),
        put("/api/sensors/" + "x".repeat(65) + "/calibration", "{}", "1 to 64"),
        post("/api/alerts/1/acknowledge", "{\"by\":" + '"' + "x".repeat(61) + "\"}", "by must"),
        post("/api/alerts/1/acknowledge", "{\"who\":\"Ida\"}", "\"who\""),
        post("/api/alerts/1/shelve", "{}", "minutes must be"),
        post("/api/alerts/1/shelve", "{\"minutes\":-5}", "minutes must be"),
        post("/api/alerts/1/shelve", "{\"minutes\":10081}", "at most 10080"));
  }

  private static String band(String band) {
    return "{\"name\":\"A\",\"kind\":\"jar\",\"band\":" + band + '}';
  }

  private static String backwards() {
    return "{\"from\":\"2026-03-02T06:00:00Z\",\"until\":\"2026-03-01T06:00:00Z\"}";
  }

  private static String stretch() {
    return "{\"container\":\"room\",\"from\":\"2026-03-02T06:00:00Z\","
        + "\"until\":\"2026-03-01T06:00:00Z\"}";
  }

  private static Stream<Refusal> unknown() {
    String none = "/api/containers/attic";
    return Stream.concat(
        Stream.of("", "/openings", "/openings/suggested", "/readings", "/heat", "/light", "/band")
            .map(below -> new Refusal(404, "GET", none + below, null, "no container \"attic\"")),
        Stream.of(
            new Refusal(404, "GET", "/api/containers/Jar%201", null, "no container \"Jar 1\""),
            new Refusal(404, "PUT", none, "{\"name\":\"A\",\"kind\":\"jar\"}", "attic"),
            new Refusal(404, "DELETE", none, null, "attic"),
            new Refusal(404, "POST", none + "/openings", "{}", "attic"),
            new Refusal(404, "POST", none + "/openings/suggested/decline", "{}", "attic"),
            new Refusal(404, "GET", "/api/sensors/nobody", null, "\"nobody\""),
            new Refusal(400, "GET", "/api/sensors/no%20space", null, "1 to 64 of A-Z"),
            new Refusal(404, "POST", "/api/alerts/999/acknowledge", "{}", "no open alert 999"),
            new Refusal(404, "POST", "/api/alerts/one/shelve", "{\"minutes\":5}", "\"one\"")));
  }

  private static Stream<Refusal> parameters() {
    String swapped = "?from=2026-03-02T00:00:00Z&to=2026-03-01T00:00:00Z";
    String years = "?from=1990-01-01T00:00:00Z&to=2020-01-01T00:00:00Z";
    return Stream.of(
        get(JAR + "/readings" + swapped, "to must not lie before from"),
        get(JAR + "/openings" + swapped, "to must not lie before from"),
        get(JAR + "/heat" + swapped, "to must not lie before from"),
        get(JAR + "/light" + swapped, "to must not lie before from"),
        get(JAR + "/band" + swapped, "to must not lie before from"),
        get("/api/room" + swapped, "to must not lie before from"),
        get(JAR + "/readings?from=yesterday", "from must be an instant"),
        get(JAR + "/readings?from=2026-03-01T06:00:00", "from must be an instant"),
        get(JAR + "/readings?to=1960-03-01T06:00:00Z", "to must lie between the years"),
        get(JAR + "/readings?points=0", "points must be a whole number"),
        get(JAR + "/readings?points=5001", "points must be a whole number"),
        get(JAR + "/readings?points=2.5", "points must be a whole number"),
        get("/api/room?points=many", "points must be a number, not \"many\""),
        get(JAR + "/heat?base=cold", "base must be a number"),
        get(JAR + "/heat?base=-1e308", "base must lie between -20 and 60 °C"),
        get(JAR + "/heat?ceiling=NaN", "ceiling must be a number"),
        get(JAR + "/heat?base=20&ceiling=10", "ceiling temperature 10.0 °C"),
        get(JAR + "/heat" + years, "too many days"),
        get(JAR + "/light?limit=-1", "limit must lie between 0 and 100000 lux"),
        get(JAR + "/light?joinSeconds=-1", "joinSeconds must be"),
        get(JAR + "/openings/suggested" + swapped, "to must not lie before from"),
        get(JAR + "/openings/suggested" + years, "more than 100 days"),
        get("/api/alerts/performance" + swapped, "to must not lie before from"),
        get("/api/alerts/performance" + years, "more than 100 days"),
        get("/api/alerts?state=loud", "state must be open, active"),
        get("/api/rejects?limit=0", "limit must be a whole number from 1 to 1000"));
  }

  private static Refusal get(String path, String word) {
    return new Refusal(400, "GET", path, null, word);
  }

  private static Refusal post(String path, String body, String word) {
    return new Refusal(400, "POST", path, body, word);
  }

  private static Refusal put(String path, String body, String word) {
    return new Refusal(400, "PUT", path, body, word);
  }

  @Override
  public String toString() {
    return method + ' ' + path + (body == null ? "" : ' ' + body) + " -> " + status;
  }
}
