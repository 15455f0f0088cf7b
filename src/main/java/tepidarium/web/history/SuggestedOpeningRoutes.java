package tepidarium.web.history;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.light.OpeningSign;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;

/** Routes for openings detected in the readings; a person can record or decline them. */
public final class SuggestedOpeningRoutes {
  private static final int MAX_DAYS = 100;

  private final Register register;
  private final ContainerHistory history;
  private final ContainerRequests requests;

  record SuggestedJson(
      String container,
      Instant from,
      Instant until,
      double peakLux,
      @Nullable Double temperatureChange,
      @Nullable Double humidityChange,
      String reason) {}

  /** The suggested opening to decline. */
  record Declined(@Nullable String from, @Nullable String until) {
    Span span() {
      if (from == null || until == null) {
        throw new InvalidInput("from and until are missing: send those of the suggested opening");
      }
      Instant start = Params.instant("from", from);
      Instant end = Params.instant("until", until);
      if (!end.isAfter(start)) {
        throw InvalidInput.after("until");
      }
      return new Span(start, end);
    }
  }

  public SuggestedOpeningRoutes(
      Register register, ContainerHistory history, ContainerRequests requests) {
    this.register = register;
    this.history = history;
    this.requests = requests;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/openings/suggested", this::list);
    routes.post("/api/containers/{id}/openings/suggested/decline", this::decline);
  }

  private void list(Context ctx) {
    Container container = requests.container(ctx);
    Span span =
        requests.span(container.id(), Params.instant(ctx, "from"), Params.instant(ctx, "to"));
    if (span.length().toDays() > MAX_DAYS) {
      throw new InvalidInput(
          "a span of more than " + MAX_DAYS + " days is too long to look through",
          InputRule.SPAN.with(MAX_DAYS));
    }
    List<SuggestedJson> suggested =
        history.openingSigns(container, span).stream()
            .filter(sign -> !register.isDecided(new Opening(container.id(), sign.span())))
            .map(sign -> suggested(container.id(), sign))
            .toList();
    ctx.json(suggested);
  }

  private void decline(Context ctx) {
    ContainerId id = requests.container(ctx).id();
    register.decline(new Opening(id, Params.body(ctx, Declined.class).span()));
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private static SuggestedJson suggested(ContainerId id, OpeningSign sign) {
    return new SuggestedJson(
        id.value(),
        sign.span().from(),
        sign.span().to(),
        sign.peakLux(),
        negative(sign.temperatureFallC()),
        negative(sign.humidityFallPercent()),
        reason(sign));
  }

  private static @Nullable Double negative(@Nullable Double fall) {
    return fall == null ? null : -fall;
  }

  private static String reason(OpeningSign sign) {
    Double temperatureFall = sign.temperatureFallC();
    Double humidityFall = sign.humidityFallPercent();
    String temperature =
        temperatureFall == null
            ? ""
            : String.format(Locale.ROOT, "temperature fell by %.1f °C", temperatureFall);
    String humidity =
        humidityFall == null
            ? ""
            : String.format(Locale.ROOT, "humidity fell by %.0f %%", humidityFall);
    String and = temperatureFall == null || humidityFall == null ? "" : " and ";
    return "Light appeared suddenly, "
        + temperature
        + and
        + humidity
        + " within minutes and then recovered. This looks like an opening.";
  }
}
