package tepidarium.web.seasons;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Contradiction;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.season.EarlierSeason;
import tepidarium.season.SeasonHeat;
import tepidarium.season.SeasonReport;
import tepidarium.season.SeasonReporter;
import tepidarium.season.SeasonStore;
import tepidarium.season.SpeciesResult;
import tepidarium.season.StoredSeason;
import tepidarium.web.Json;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Routes for the report of a season, and for stored seasons. */
public final class SeasonRoutes {
  private static final int MAX_DAYS = 1_000;
  private static final int MAX_COMPARED = 3;
  private static final Duration WITHOUT_SOWINGS = Duration.ofDays(90);

  /** Ignores unknown fields, because another version may have stored the report. */
  private static final ObjectMapper KEPT =
      Json.MAPPER.copy().disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES);

  private final SeasonReporter reporter;
  private final SeasonStore store;
  private final Clock clock;

  public SeasonRoutes(SeasonReporter reporter, SeasonStore store, Clock clock) {
    this.reporter = reporter;
    this.store = store;
    this.clock = clock;
  }

  record KeepBody(
      @Nullable String name, @Nullable String from, @Nullable String to, @Nullable String remark) {}

  record KeptJson(
      long id,
      String name,
      Instant from,
      Instant to,
      Instant keptAt,
      @Nullable String remark,
      int sown,
      int germinated) {}

  record KeptReport(
      long id, String name, Instant keptAt, @Nullable String remark, JsonNode report) {}

  /** The parts of a stored report that are used. */
  record Figures(List<SpeciesResult> species, @Nullable SeasonHeat heat) {}

  public void add(RoutesConfig routes) {
    routes.get("/api/seasons/report", this::report);
    routes.get("/api/seasons", ctx -> ctx.json(store.seasons().stream().map(this::kept).toList()));
    routes.post("/api/seasons", this::keep);
    routes.get("/api/seasons/{season}", this::show);
    routes.delete("/api/seasons/{season}", this::remove);
  }

  private void report(Context ctx) {
    List<StoredSeason> kept = store.seasons();
    Span span = span(Params.instant(ctx, "from"), Params.instant(ctx, "to"), kept);
    ctx.json(report(span, kept));
  }

  private void keep(Context ctx) {
    KeepBody body = Params.body(ctx, KeepBody.class);
    if (body.name() == null) {
      throw InvalidInput.missing("name");
    }
    List<StoredSeason> kept = store.seasons();
    Span span = span(instant("from", body.from()), instant("to", body.to()), kept);
    SeasonReport report = report(span, kept);
    SeasonStore.NewSeason season =
        new SeasonStore.NewSeason(
            body.name(), span, clock.instant(), body.remark(), Json.write(report));
    StoredSeason added =
        store
            .add(season)
            .orElseThrow(
                () ->
                    new Contradiction(
                        "a season \""
                            + season.name()
                            + "\" is kept already: choose another name, or remove that one",
                        InputRule.TAKEN.with(season.name())));
    ctx.status(HttpStatus.CREATED).header("Location", "/api/seasons/" + added.id());
    ctx.json(kept(added));
  }

  private static @Nullable Instant instant(String name, @Nullable String text) {
    return text == null ? null : Params.instant(name, text);
  }

  private void show(Context ctx) {
    StoredSeason season =
        store
            .season(Params.id(ctx, "season"))
            .orElseThrow(() -> new NotFound("there is no season " + ctx.pathParam("season")));
    ctx.json(
        new KeptReport(
            season.id(),
            season.name(),
            season.keptAt(),
            season.remark(),
            read(season.report(), JsonNode.class)));
  }

  private void remove(Context ctx) {
    long id = Params.id(ctx, "season");
    if (!store.remove(id)) {
      throw new NotFound("there is no season " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private KeptJson kept(StoredSeason season) {
    List<SpeciesResult> species = figures(season).species();
    return new KeptJson(
        season.id(),
        season.name(),
        season.span().from(),
        season.span().to(),
        season.keptAt(),
        season.remark(),
        species.stream().mapToInt(SpeciesResult::sown).sum(),
        species.stream().mapToInt(SpeciesResult::germinated).sum());
  }

  private static EarlierSeason.Figures figures(StoredSeason season) {
    Figures read = read(season.report(), Figures.class);
    return new EarlierSeason.Figures(
        season.id(),
        season.name(),
        season.span().from(),
        season.span().to(),
        read.species(),
        read.heat());
  }

  private static <T> T read(String report, Class<T> type) {
    try {
      return KEPT.readValue(report, type);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a kept season cannot be read", e);
    }
  }

  /**
   * The requested span. By default it starts with the first sowing after the last stored season. If
   * there is none, it starts with the last stored season, or else 90 days ago. It ends now at the
   * latest.
   */
  private Span span(
      @Nullable Instant requestedFrom, @Nullable Instant requestedTo, List<StoredSeason> kept) {
    Instant now = clock.instant();
    Instant to = requestedTo == null || requestedTo.isAfter(now) ? now : requestedTo;
    Instant from = requestedFrom == null ? defaultFrom(to, kept) : requestedFrom;
    if (!from.isBefore(to)) {
      throw new InvalidInput(
          "from",
          "must lie before to, and in the past; it is " + now + " now",
          from.isAfter(now) ? InputRule.FUTURE.with(now) : InputRule.AFTER.with());
    }
    if (Duration.between(from, to).toDays() > MAX_DAYS) {
      if (requestedFrom != null) {
        throw InvalidInput.span(MAX_DAYS);
      }
      from = to.minus(Duration.ofDays(MAX_DAYS));
    }
    return new Span(from, to);
  }

  private Instant defaultFrom(Instant to, List<StoredSeason> kept) {
    Instant end = kept.isEmpty() ? Instant.EPOCH : kept.get(0).span().to();
    Instant otherwise = kept.isEmpty() ? to.minus(WITHOUT_SOWINGS) : kept.get(0).span().from();
    Instant first = reporter.firstSowing(end, to);
    return first == null ? otherwise : first;
  }

  private SeasonReport report(Span span, List<StoredSeason> kept) {
    List<EarlierSeason.Figures> earlier =
        kept.stream()
            .filter(season -> !season.span().to().isAfter(span.from()))
            .limit(MAX_COMPARED)
            .map(SeasonRoutes::figures)
            .toList();
    return reporter.report(span, clock.instant(), earlier);
  }
}
