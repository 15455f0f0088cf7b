package tepidarium.web.sums;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.SeedsNeeded;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.stats.Censored;
import tepidarium.stats.MoistAir;
import tepidarium.stats.Proportion;
import tepidarium.stats.ProportionDifference;
import tepidarium.stats.Replicates;
import tepidarium.stats.Stratified;
import tepidarium.web.Params;

/** Routes for calculations on numbers in the request; nothing is stored. */
public final class SumsRoutes {
  private static final int MAX_SEEDS = 1_000_000;
  private static final int MAX_WANTED = 100_000;
  private static final int MAX_LOTS = 100;
  private static final int MAX_STRATA = 100;
  private static final int MAX_REPLICATES = 100;
  private static final int MAX_INTERVALS = 1_000;
  private static final double MAX_TIME = 1e9;
  private static final double MIN_TIME = 1e-9;

  public void add(RoutesConfig routes) {
    routes.post("/api/sums/fraction", SumsRoutes::fraction);
    routes.post("/api/sums/difference", SumsRoutes::difference);
    routes.post("/api/sums/stratified", SumsRoutes::stratified);
    routes.post("/api/sums/replicates", SumsRoutes::replicates);
    routes.post("/api/sums/seeds-needed", SumsRoutes::seedsNeeded);
    routes.post("/api/sums/germination", SumsRoutes::germination);
    routes.post("/api/sums/air", SumsRoutes::air);
  }

  private static void fraction(Context ctx) {
    SumsJson.CountRequest request = Params.body(ctx, SumsJson.CountRequest.class);
    ctx.json(SumsJson.Fraction.of(proportion("", request.germinated(), request.sown())));
  }

  private static void difference(Context ctx) {
    SumsJson.DifferenceRequest request = Params.body(ctx, SumsJson.DifferenceRequest.class);
    ctx.json(
        SumsJson.Difference.of(
            new ProportionDifference(proportion("a", request.a()), proportion("b", request.b()))));
  }

  private static void stratified(Context ctx) {
    SumsJson.StratifiedRequest request = Params.body(ctx, SumsJson.StratifiedRequest.class);
    List<SumsJson.@Nullable DifferenceRequest> strata = needed("strata", request.strata());
    if (strata.isEmpty() || strata.size() > MAX_STRATA) {
      throw new InvalidInput("strata", "must be 1 to " + MAX_STRATA + " comparisons");
    }
    List<ProportionDifference> all = new ArrayList<>();
    for (int i = 0; i < strata.size(); i++) {
      String name = "strata[" + i + ']';
      SumsJson.DifferenceRequest stratum = needed(name, strata.get(i));
      all.add(
          new ProportionDifference(
              proportion(name + ".a", stratum.a()), proportion(name + ".b", stratum.b())));
    }
    ctx.json(SumsJson.StratifiedAnswer.of(new Stratified(all)));
  }

  private static void replicates(Context ctx) {
    SumsJson.ReplicatesRequest request = Params.body(ctx, SumsJson.ReplicatesRequest.class);
    List<Proportion> counts =
        results("replicates", needed("replicates", request.replicates()), MAX_REPLICATES);
    ctx.json(SumsJson.ReplicatesAnswer.of(new Replicates(counts)));
  }

  private static Proportion proportion(String name, SumsJson.@Nullable CountRequest request) {
    SumsJson.CountRequest count = needed(name, request);
    return proportion(name + '.', count.germinated(), count.sown());
  }

  private static Proportion proportion(
      String prefix, @Nullable Double germinated, @Nullable Double sown) {
    int of = whole(prefix + "sown", sown, 1, MAX_SEEDS);
    int hits = whole(prefix + "germinated", germinated, 0, MAX_SEEDS);
    if (hits > of) {
      throw new InvalidInput(
          prefix + "germinated",
          "must not be more than sown: " + hits + " of " + of,
          InputRule.WHOLE.with(0, of));
    }
    return new Proportion(hits, of);
  }

  private static void seedsNeeded(Context ctx) {
    SumsJson.SeedsRequest request = Params.body(ctx, SumsJson.SeedsRequest.class);
    int wanted = whole("wanted", request.wanted(), 1, MAX_WANTED);
    double confidence = needed("confidence", request.confidence());
    if (!(confidence > 0 && confidence < 1)) {
      throw new InvalidInput(
          "confidence", "must lie above 0 and below 1, such as 0.9", InputRule.ABOVE.with(0, 1));
    }
    boolean hasResult = request.germinated() != null || request.sown() != null;
    if ((request.fraction() == null ? 0 : 1)
            + (hasResult ? 1 : 0)
            + (request.lots() == null ? 0 : 1)
        > 1) {
      throw new InvalidInput(
          "give one of fraction, germinated and sown of a past result, or lots, not two of them");
    }
    if (request.lots() != null) {
      ctx.json(
          SumsJson.Seeds.of(
              SeedsNeeded.afterLots(wanted, confidence, results("lots", request.lots(), MAX_LOTS)),
              SumsJson.Seeds.LOTS));
      return;
    }
    if (hasResult) {
      Proportion past = proportion("", request.germinated(), request.sown());
      ctx.json(
          SumsJson.Seeds.of(
              SeedsNeeded.afterResult(wanted, confidence, past), SumsJson.Seeds.PAST));
      return;
    }
    if (request.fraction() == null) {
      throw new InvalidInput("give fraction, or germinated and sown of a past result, or lots");
    }
    double fraction = request.fraction();
    if (!(fraction > 0 && fraction <= 1)) {
      throw new InvalidInput(
          "fraction", "must lie above 0 and be at most 1", InputRule.ABOVE.with(0, 1));
    }
    ctx.json(
        SumsJson.Seeds.of(
            SeedsNeeded.knownFraction(wanted, confidence, fraction), SumsJson.Seeds.KNOWN));
  }

  private static List<Proportion> results(
      String name, List<SumsJson.@Nullable CountRequest> request, int most) {
    if (request.size() < 2 || request.size() > most) {
      throw new InvalidInput(name, "must be 2 to " + most + " results");
    }
    List<Proportion> results = new ArrayList<>();
    for (int i = 0; i < request.size(); i++) {
      results.add(proportion(name + '[' + i + ']', request.get(i)));
    }
    return results;
  }

  private static void germination(Context ctx) {
    SumsJson.GerminationRequest request = Params.body(ctx, SumsJson.GerminationRequest.class);
    List<SumsJson.@Nullable IntervalRequest> intervals = needed("intervals", request.intervals());
    if (intervals.isEmpty() || intervals.size() > MAX_INTERVALS) {
      throw new InvalidInput("intervals", "must be 1 to " + MAX_INTERVALS + " rows");
    }
    List<Censored> rows = new ArrayList<>();
    long seeds = 0;
    for (int i = 0; i < intervals.size(); i++) {
      Censored row = row("intervals[" + i + ']', intervals.get(i));
      rows.add(row);
      seeds += row.count();
    }
    if (seeds > MAX_SEEDS) {
      throw new InvalidInput("intervals", "must have at most " + MAX_SEEDS + " seeds in total");
    }
    ctx.json(SumsJson.Germination.of(rows));
  }

  private static Censored row(String name, SumsJson.@Nullable IntervalRequest request) {
    SumsJson.IntervalRequest interval = needed(name, request);
    double from = time(name + ".from", needed(name + ".from", interval.from()));
    double to =
        interval.to() == null ? Double.POSITIVE_INFINITY : time(name + ".to", interval.to());
    if (!(from < to)) {
      throw new InvalidInput(
          name + ".to", "must be later than from; null if the seeds were not seen to germinate");
    }
    return new Censored(from, to, whole(name + ".count", interval.count(), 0, MAX_SEEDS));
  }

  private static double time(String name, double value) {
    if (!(value == 0 || (value >= MIN_TIME && value <= MAX_TIME))) {
      throw new InvalidInput(name, "must be 0 or later, at most 1000000000");
    }
    return value;
  }

  private static void air(Context ctx) {
    SumsJson.AirRequest request = Params.body(ctx, SumsJson.AirRequest.class);
    ctx.json(
        SumsJson.Air.of(
            new MoistAir(
                within("temperature", request.temperature(), -40, 100, "°C"),
                within("humidity", request.humidity(), 0, 100, "%"))));
  }

  private static double within(
      String name, @Nullable Double value, int least, int most, String unit) {
    double given = needed(name, value);
    if (!(given >= least && given <= most)) {
      throw InvalidInput.range(name, least, most, unit);
    }
    return given;
  }

  private static int whole(String name, @Nullable Double value, int least, int most) {
    double given = needed(name, value);
    if (!(given >= least && given <= most) || given != Math.rint(given)) {
      throw InvalidInput.whole(name, least, most);
    }
    return (int) given;
  }

  private static <T> T needed(String name, @Nullable T value) {
    if (value == null) {
      throw InvalidInput.missing(name);
    }
    return value;
  }
}
