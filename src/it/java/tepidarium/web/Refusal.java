package tepidarium.web;

import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** A request that makes no sense, and the word that the answer must say about it. */
record Refusal(int status, String method, String path, @Nullable String body, String word) {
  private static final String JAR = "/api/containers/jar-1";
  private static final String PROBE = "/api/sensors/" + Grower.SENSOR;

  static Stream<Refusal> all() {
    return Stream.of(bodies(), sums(), unknown(), parameters(), seeds())
        .flatMap(refusals -> refusals);
  }

  /** Figures asked for with a value out of range, with the name of the field as the word. */
  static Stream<Refusal> figures() {
    String years = "?from=1970-01-01T00:00:00Z&to=2026-03-01T00:00:00Z";
    String swapped = "?from=2026-03-02T00:00:00Z&to=2026-03-01T00:00:00Z";
    return Stream.of(
        get("/api/sensors?activity=yes", "activity"),
        get("/api/sensors?outside=yes", "outside"),
        get("/api/sensors?container=attic", "container"),
        get(JAR + "/heat?base=30&ceiling=20", "ceiling"),
        get(JAR + "/heat?base=-300", "base"),
        get(JAR + "/heat" + years, "from"),
        get(JAR + "/heat" + swapped, "to"),
        get(JAR + "/band" + swapped, "to"),
        get(JAR + "/light?joinSeconds=1e9", "joinSeconds"),
        get(JAR + "/trial" + years, "from"),
        get("/api/compare/heat?containers=jar-1", "containers"),
        get("/api/compare/heat?containers=jar-1,attic", "containers"),
        get("/api/compare/heat?sources=moon,mat", "sources"),
        get("/api/compare/heat" + years + "&containers=jar-1,empty-tray", "from"),
        get("/api/charts?containers=,", "containers"),
        get("/api/charts?containers=1,2,3,4,5,6,7,8,9,10,11", "containers"),
        get("/api/charts?containers=jar-1&points=1001", "points"),
        get("/api/charts" + years + "&containers=jar-1", "from"),
        get("/api/charts" + swapped + "&containers=jar-1", "to"),
        get("/api/compare/germination?sowings=1,1", "sowings"),
        get("/api/compare/heat-sources", "species"),
        get("/api/seasons/report" + years, "from"),
        get("/api/seasons/report" + swapped, "from"),
        extremes("2026-02-03", "{\"min\":30,\"max\":20}", "max"),
        extremes("2026-02-03", "{\"min\":-41,\"max\":20}", "min"),
        extremes("2026-02-03", "{\"min\":10,\"max\":1e999}", "max"),
        extremes("2026-02-03", "{\"min\":\"low\",\"max\":20}", "min"),
        extremes("x", "{\"min\":10,\"max\":20}", "day"),
        sum("seeds-needed", "{\"wanted\":100001,\"confidence\":0.9,\"fraction\":0.5}", "wanted"),
        sum("seeds-needed", "{\"wanted\":-1,\"confidence\":0.9,\"fraction\":0.5}", "wanted"),
        sum("fraction", "{\"germinated\":6,\"sown\":5}", "germinated"),
        sum("fraction", "{\"germinated\":\"six\",\"sown\":5}", "germinated"),
        sum("difference", "{\"a\":{\"germinated\":-1,\"sown\":5}}", "a.germinated"),
        sum("stratified", "{\"strata\":[]}", "strata"),
        sum("replicates", "{\"replicates\":[{\"germinated\":1,\"sown\":2}]}", "replicates"),
        sum(
            "germination",
            "{\"intervals\":[{\"from\":3,\"to\":2,\"count\":1}]}",
            "intervals[0].to"),
        sum("germination", "{\"intervals\":[{\"from\":0,\"to\":true}]}", "intervals[0].to"),
        sum("air", "{\"temperature\":20,\"humidity\":101}", "humidity"));
  }

  private static Refusal sum(String name, String body, String field) {
    return post("/api/sums/" + name, body, field);
  }

  private static Stream<Refusal> bodies() {
    String add = "/api/containers";
    return Stream.of(
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"colour\":\"red\"}", "\"colour\""),
        post(add, "{\"kind\":\"jar\"}", "name is missing"),
        post(add, "{\"name\":\" \",\"kind\":\"jar\"}", "name must have"),
        post(add, "{\"name\":\"A\"}", "kind must be"),
        post(add, "{\"name\":\"A\",\"kind\":\"bucket\"}", "kind must be bag, box, jar or tray"),
        post(add, "{\"name\":7,\"kind\":\"jar\"}", "name has a value of the wrong kind"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"base\":\"15\"}", "base has"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"base\":900}", "base must be between"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"ceiling\":10}", "ceiling 10.0"),
        post(add, "{\"name\":\"A\",\"kind\":\"jar\",\"band\":[1]}", "band has"),
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
        post(JAR + "/openings", "{\"minutes\":\"ten\"}", "minutes has"),
        post(JAR + "/openings", "{\"minutes\":241}", "at most 240"),
        post(
            JAR + "/openings", "{\"minutes\":5,\"until\":\"2026-03-01T06:00:00Z\"}", "one of them"),
        post(
            JAR + "/openings", "{\"until\":\"2026-03-01T06:00:00Z\"}", "until must lie after from"),
        post(JAR + "/openings", "{\"until\":\"noon\"}", "until must be an instant"),
        post(JAR + "/openings/suggested/decline", "{}", "from and until are missing"),
        post(JAR + "/openings/suggested/decline", backwards(), "until must lie after from"),
        put(PROBE + "/placement", "{\"container\":\"attic\"}", "no container \"attic\""),
        put(PROBE + "/placement", "{\"container\":\"No Such\"}", "no container \"No Such\""),
        put(PROBE + "/placement", "{\"container\":\"room\",\"from\":\"noon\"}", "from must be"),
        put(PROBE + "/placement", "{\"container\":\"room\",\"from\":5}", "from has"),
        put(PROBE + "/placement", stretch(), "until"),
        put(
            PROBE + "/placement",
            "{\"container\":\"room\",\"from\":\"2009-12-31T23:59:59Z\"}",
            "before 2010"),
        put(PROBE + "/calibration", "{\"temperatureOffset\":50}", "temperatureOffset"),
        put(PROBE + "/calibration", "{\"temperatureError\":-1}", "temperatureError"),
        put(PROBE + "/calibration", "{\"offset\":1}", "\"offset\""),
        point("{\"reading\":1,\"method\":\"dark\"}", "quantity is missing"),
        point(
            "{\"quantity\":\"wind\",\"reading\":1,\"method\":\"dark\"}", "must be a quantity, not"),
        point("{\"quantity\":\"light\",\"reading\":1,\"method\":\"guess\"}", "is not a method"),
        point("{\"quantity\":\"light\",\"method\":\"dark\"}", "reading is missing"),
        point(compared("\"reading\":30"), "trueValue is missing"),
        point(compared("\"reading\":30,\"trueValue\":30"), "uncertainty is missing"),
        point(compared("\"reading\":30,\"trueValue\":400,\"uncertainty\":1"), "-55 and 125"),
        point(
            compared("\"reading\":30,\"trueValue\":30,\"uncertainty\":1,\"salt\":\"x\""),
            "only for the method saturatedSalt"),
        point(
            compared(
                "\"reading\":30,\"trueValue\":30,\"uncertainty\":1,\"at\":\"2999-01-01T00:00:00Z\""),
            "lies in the future"),
        point(
            compared(
                "\"reading\":30,\"trueValue\":30,\"uncertainty\":1,\"at\":\"2011-01-01T00:00:00Z\""),
            "before the first reading"),
        put("/api/sensors/no%20space/placement", "{}", "no space"),
        put("/api/sensors/" + "x".repeat(65) + "/calibration", "{}", "1 to 64"),
        post("/api/alerts/1/acknowledge", "{\"by\":" + '"' + "x".repeat(61) + "\"}", "by must"),
        post("/api/alerts/1/acknowledge", "{\"who\":\"Ida\"}", "\"who\""),
        extremes("9999-01-01", "{\"min\":10,\"max\":20}", "lies in the future"),
        extremes("2009-12-31", "{\"min\":10,\"max\":20}", "before 2010"),
        extremes("2026-02-30", "{\"min\":10,\"max\":20}", "a date like 2026-03-01"),
        extremes("2026-02-03", "{\"min\":21,\"max\":20}", "must not be below min"),
        extremes("2026-02-03", "{\"min\":-41,\"max\":20}", "min must be between -40 and 80"),
        extremes("2026-02-03", "{\"max\":20}", "min is missing"),
        extremes("2026-02-03", "{\"min\":20}", "max is missing"),
        put(JAR + "/alert-rules", rule("wet", "{}"), "kinds are cold, hot"),
        put(JAR + "/alert-rules", rule("cold", "{\"limit\":20}"), "container's band"),
        put(JAR + "/alert-rules", rule("cold", "{\"colour\":1}"), "\"cold.colour\""),
        put(JAR + "/alert-rules", rule("cold", "{\"deadband\":\"x\"}"), "must be a number"),
        put(JAR + "/alert-rules", rule("dry", "{\"onDelayMinutes\":-1}"), "dry.onDelayMinutes"),
        put(JAR + "/alert-rules", rule("dry", "{\"offDelayMinutes\":1e99}"), "0 and 1440 min"),
        put(JAR + "/alert-rules", rule("hot", "{\"priority\":\"urgent\"}"), "low, medium or high"),
        put(JAR + "/alert-rules", rule("hot", "{\"inService\":null}"), "true or false"),
        put(JAR + "/alert-rules", rule("hot", "7"), "rules.hot has"),
        put(JAR + "/alert-rules", "{\"reason\":" + '"' + "x".repeat(201) + "\"}", "reason must"),
        post("/api/alerts/1/unshelve", "{\"who\":\"Ida\"}", "\"who\""),
        post("/api/alerts/1/shelve", "{}", "minutes must be"),
        post("/api/alerts/1/shelve", "{\"minutes\":-5}", "minutes must be"),
        post("/api/alerts/1/shelve", "{\"minutes\":10081}", "at most 10080"));
  }

  private static Refusal extremes(String day, String body, String word) {
    return put(JAR + "/day-extremes/" + day, body, word);
  }

  private static String rule(String kind, String fields) {
    return "{\"rules\":{\"" + kind + "\":" + fields + "}}";
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

  private static Stream<Refusal> sums() {
    String fraction = "/api/sums/fraction";
    String difference = "/api/sums/difference";
    String seeds = "/api/sums/seeds-needed";
    String germination = "/api/sums/germination";
    String air = "/api/sums/air";
    return Stream.of(
        post(fraction, "{\"germinated\":5,\"sown\":4}", "germinated must not be more than sown"),
        post(fraction, "{\"germinated\":-1,\"sown\":4}", "germinated must be"),
        post(fraction, "{\"germinated\":1.5,\"sown\":4}", "whole number"),
        post(fraction, "{\"germinated\":0,\"sown\":0}", "sown must be"),
        post(fraction, "{\"germinated\":1,\"sown\":1e12}", "sown must be"),
        post(fraction, "{\"germinated\":NaN,\"sown\":4}", "not JSON"),
        post(fraction, "{\"germinated\":\"1\",\"sown\":4}", "germinated has"),
        post(fraction, "{\"germinated\":1}", "sown is missing"),
        post(difference, "{\"a\":{\"germinated\":1,\"sown\":2}}", "b is missing"),
        post(
            difference,
            "{\"a\":{\"germinated\":3,\"sown\":2},\"b\":{\"germinated\":1,\"sown\":2}}",
            "a.germinated"),
        post("/api/sums/stratified", "{\"strata\":[]}", "strata must be 1 to 100"),
        post("/api/sums/stratified", "{\"strata\":[null]}", "strata[0] is missing"),
        post("/api/sums/replicates", "{\"replicates\":[null]}", "replicates must be 2 to 100"),
        post(seeds, "{\"wanted\":0,\"confidence\":0.9,\"fraction\":0.2}", "wanted"),
        post(seeds, "{\"wanted\":5,\"confidence\":1,\"fraction\":0.2}", "confidence"),
        post(seeds, "{\"wanted\":5,\"confidence\":0.9,\"fraction\":0}", "fraction must"),
        post(seeds, "{\"wanted\":5,\"confidence\":0.9,\"fraction\":1.2}", "fraction must"),
        post(seeds, "{\"wanted\":5,\"confidence\":0.9}", "give fraction"),
        post(seeds, "{\"wanted\":5,\"confidence\":0.9,\"germinated\":5}", "sown is missing"),
        post(
            seeds,
            "{\"wanted\":5,\"confidence\":0.9,\"fraction\":0.2,\"germinated\":5,\"sown\":9}",
            "not two of them"),
        post(
            seeds,
            "{\"wanted\":9,\"confidence\":0.9,\"fraction\":1e-12}",
            "lower the number wanted"),
        post(germination, "{}", "intervals is missing"),
        post(germination, "{\"intervals\":[]}", "1 to 1000 rows"),
        post(germination, rows(1001), "1 to 1000 rows"),
        post(germination, "{\"intervals\":[null]}", "intervals[0] is missing"),
        post(germination, row("\"from\":9,\"to\":7,\"count\":1"), "must be later than from"),
        post(germination, row("\"from\":7,\"to\":7,\"count\":1"), "must be later than from"),
        post(germination, row("\"from\":-1,\"to\":7,\"count\":1"), "intervals[0].from"),
        post(germination, row("\"from\":1,\"to\":1e400,\"count\":1"), "intervals[0].to"),
        post(germination, row("\"from\":1,\"to\":7,\"count\":-1"), "intervals[0].count"),
        post(germination, row("\"from\":1,\"to\":7"), "intervals[0].count is missing"),
        post(air, "{\"temperature\":30}", "humidity is missing"),
        post(air, "{\"temperature\":30,\"humidity\":101}", "humidity must be"),
        post(air, "{\"temperature\":300,\"humidity\":50}", "temperature must be"));
  }

  private static String row(String fields) {
    return "{\"intervals\":[{" + fields + "}]}";
  }

  private static String rows(int many) {
    String row = "{\"from\":1,\"to\":2,\"count\":1}";
    return "{\"intervals\":[" + (row + ',').repeat(many - 1) + row + "]}";
  }

  private static Stream<Refusal> unknown() {
    String none = "/api/containers/attic";
    return Stream.concat(
        Stream.of(
                "",
                "/openings",
                "/openings/suggested",
                "/alert-rules",
                "/readings",
                "/heat",
                "/light",
                "/band",
                "/events",
                "/trial",
                "/day-extremes")
            .map(below -> new Refusal(404, "GET", none + below, null, "no container \"attic\"")),
        Stream.of(
            new Refusal(404, "GET", "/api/containers/Jar%201", null, "no container \"Jar 1\""),
            new Refusal(404, "PUT", none, "{\"name\":\"A\",\"kind\":\"jar\"}", "attic"),
            new Refusal(404, "DELETE", none, null, "attic"),
            new Refusal(404, "POST", none + "/openings", "{}", "attic"),
            new Refusal(404, "PUT", none + "/day-extremes/2026-03-01", "{}", "attic"),
            new Refusal(404, "DELETE", none + "/day-extremes/2026-03-01", null, "attic"),
            new Refusal(400, "DELETE", JAR + "/day-extremes/today", null, "a date like"),
            new Refusal(404, "POST", none + "/openings/end", "{}", "attic"),
            new Refusal(404, "PUT", none + "/alert-rules", "{}", "attic"),
            new Refusal(404, "POST", "/api/alerts/999/unshelve", "{}", "no open alert with id 999"),
            new Refusal(404, "POST", none + "/openings/suggested/decline", "{}", "attic"),
            new Refusal(404, "GET", "/api/sensors/nobody", null, "\"nobody\""),
            new Refusal(400, "GET", "/api/sensors/no%20space", null, "1 to 64 of A-Z"),
            new Refusal(
                404, "POST", "/api/alerts/999/acknowledge", "{}", "no open alert with id 999"),
            new Refusal(404, "POST", "/api/alerts/one/shelve", "{\"minutes\":5}", "\"one\"")));
  }

  private static Stream<Refusal> seeds() {
    String lot = "\"gatheredAt\":\"2026-03-01T06:00:00Z\"";
    String none = "/api/entries/00000000-0000-0000-0000-000000000001";
    return Stream.of(
        post("/api/species", "{}", "name is missing"),
        post(
            "/api/species",
            "{\"name\":\"A\",\"figures\":{\"ph\":null}}",
            "no species figure \"ph\""),
        post("/api/species", figure("base", "{\"value\":15}"), "base.source is missing"),
        post("/api/species", figure("base", "{\"source\":\"x\"}"), "base.value is missing"),
        post("/api/species", figure("fraction", "{\"value\":2,\"source\":\"x\"}"), "fraction must"),
        put("/api/species/cacao", "{\"name\":\"\"}", "name must have"),
        new Refusal(404, "PUT", "/api/species/oak", "{\"name\":\"Oak\"}", "no species \"oak\""),
        post("/api/lots", "{\"species\":\"oak\",\"seeds\":1," + lot + "}", "no species \"oak\""),
        post("/api/lots", "{\"species\":\"cacao\",\"seeds\":0," + lot + "}", "seeds must be"),
        post("/api/lots", "{\"species\":\"cacao\",\"seeds\":2.5," + lot + "}", "seeds has"),
        post("/api/lots", "{\"species\":\"cacao\",\"seeds\":1}", "gatheredAt is missing"),
        post(
            "/api/lots",
            "{\"species\":\"cacao\",\"seeds\":1,\"from\":\"shop\"," + lot + "}",
            "from must be plant"),
        new Refusal(404, "GET", "/api/lots/99", null, "no seed lot 99"),
        new Refusal(404, "PUT", "/api/lots/x", "{}", "no lot \"x\""),
        post("/api/sowings", "{\"groups\":[]}", "lot is missing"),
        post("/api/sowings", "{\"lot\":99,\"groups\":[]}", "at least one container"),
        post("/api/sowings", "{\"lot\":99," + JAR_GROUP + "}", "no seed lot 99"),
        post(
            "/api/sowings",
            "{\"lot\":1,\"entry\":\"one\"," + JAR_GROUP + "}",
            "must be a UUID, not \"one\""),
        new Refusal(404, "GET", "/api/sowings/99", null, "no sowing 99"),
        new Refusal(404, "GET", "/api/sowings/99/entries", null, "no sowing 99"),
        new Refusal(404, "GET", "/api/sowings/x/germination", null, "no sowing \"x\""),
        new Refusal(404, "GET", "/api/sowings/99/heat-course", null, "no sowing 99"),
        new Refusal(404, "GET", "/api/species/oak/thermal-time", null, "no species \"oak\""),
        new Refusal(404, "GET", "/api/species/oak/viability", null, "no species \"oak\""),
        new Refusal(404, "GET", "/api/groups/x/path", null, "looks like 3-1"),
        new Refusal(404, "POST", "/api/groups/99-1/moves", "{\"to\":\"jar-1\"}", "group 99-1"),
        new Refusal(404, "POST", "/api/groups/99-1/checks", "{}", "group 99-1"),
        new Refusal(404, "POST", "/api/groups/99-1/survival", "{\"alive\":1}", "group 99-1"),
        post("/api/groups/1-1/moves", "{}", "to is missing"),
        post("/api/groups/1-1/checks", "{\"germinated\":-1}", "germinated must be"),
        post("/api/groups/1-1/checks", "{\"culled\":[{\"count\":1,\"reason\":\"odd\"}]}", "mould"),
        post("/api/groups/1-1/survival", "{}", "alive is missing"),
        new Refusal(404, "POST", none + "/correction", "{\"check\":{}}", "no entry 0000"),
        new Refusal(404, "POST", none + "/withdrawal", "{}", "no entry 0000"));
  }

  private static final String JAR_GROUP = "\"groups\":[{\"container\":\"jar-1\",\"seeds\":1}]";

  private static String figure(String trait, String figure) {
    return "{\"name\":\"A\",\"figures\":{\"" + trait + "\":" + figure + "}}";
  }

  private static Stream<Refusal> parameters() {
    String swapped = "?from=2026-03-02T00:00:00Z&to=2026-03-01T00:00:00Z";
    String years = "?from=1990-01-01T00:00:00Z&to=2020-01-01T00:00:00Z";
    return Stream.of(
        get(JAR + "/light?from=1970-01-01T00:00:00Z&to=9999-12-31T00:00:00Z", "7500 days"),
        get(JAR + "/readings" + swapped, "to must not lie before from"),
        get(JAR + "/openings" + swapped, "to must not lie before from"),
        get(JAR + "/heat" + swapped, "to must not lie before from"),
        get(JAR + "/light" + swapped, "to must not lie before from"),
        get(JAR + "/band" + swapped, "to must not lie before from"),
        get(JAR + "/events" + swapped, "to must not lie before from"),
        get("/api/room" + swapped, "to must not lie before from"),
        get(JAR + "/readings?from=yesterday", "from must be an instant"),
        get(JAR + "/readings?from=2026-03-01T06:00:00", "from must be an instant"),
        get(JAR + "/readings?to=1960-03-01T06:00:00Z", "to must not lie before the year 1970"),
        get(JAR + "/readings?points=0", "points must be a whole number"),
        get(JAR + "/readings?points=5001", "points must be a whole number"),
        get(JAR + "/readings?points=2.5", "points must be a whole number"),
        get("/api/room?points=many", "points must be a number, not \"many\""),
        get(JAR + "/heat?base=cold", "base must be a number"),
        get(JAR + "/heat?base=-1e308", "base must be between -20 and 60 °C"),
        get(JAR + "/heat?ceiling=NaN", "ceiling must be a number"),
        get(JAR + "/heat?base=20&ceiling=10", "ceiling 10.0 °C must lie above"),
        get(JAR + "/heat" + years, "at most 7500 days before to"),
        get(JAR + "/light?limit=-1", "limit must be between 0 and 100000 lux"),
        get(JAR + "/light?joinSeconds=-1", "joinSeconds must be"),
        get(JAR + "/trial?watts=-1", "watts must be between 0 and 5000 W"),
        get(JAR + "/trial" + years, "at most 60 days before to"),
        get("/api/compare/heat", "name what to compare"),
        get("/api/compare/heat?containers=jar-1,empty-tray&sources=mat", "name what to compare"),
        get(
            "/api/compare/heat?containers=jar-1,jar-1",
            "containers must be two to 8 different ones"),
        get("/api/compare/heat?containers=jar-1,attic", "containers names \"attic\""),
        get("/api/compare/heat?sources=mat,moon", "sources names \"moon\""),
        get(
            "/api/compare/heat" + years + "&containers=jar-1,empty-tray",
            "at most 1000 days before to"),
        get(JAR + "/openings/suggested" + swapped, "to must not lie before from"),
        get(JAR + "/openings/suggested" + years, "more than 100 days"),
        get("/api/alerts/performance" + swapped, "to must not lie before from"),
        get("/api/alerts/performance" + years, "at most 100 days"),
        get("/api/alerts?state=loud", "state must be open, active"),
        get("/api/alerts?limit=0", "limit must be a whole number"),
        get("/api/alerts" + swapped, "to must not lie before from"),
        get("/api/rejects?limit=0", "limit must be a whole number from 1 to 1000"));
  }

  private static Refusal point(String body, String word) {
    return post(PROBE + "/calibration-points", body, word);
  }

  private static String compared(String fields) {
    return "{\"quantity\":\"temperature\",\"method\":\"comparison\"," + fields + '}';
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
