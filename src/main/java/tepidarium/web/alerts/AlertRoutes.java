package tepidarium.web.alerts;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertFilter;
import tepidarium.alert.AlertStore;
import tepidarium.alert.Transition;
import tepidarium.live.Watch;
import tepidarium.reading.InvalidInput;
import tepidarium.web.ContainerRequests;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/** Routes for alerts: lists them with their history; acknowledges and shelves them. */
public final class AlertRoutes {
  private static final int DEFAULT_LIMIT = 500;
  private static final int MAX_LIMIT = 1_000;
  private static final double MAX_SHELVING_MINUTES = 7 * 24 * 60;

  private final Watch watch;
  private final AlertStore store;
  private final AlertViews views;
  private final ContainerRequests requests;
  private final Clock clock;

  record Person(@Nullable String by) {}

  record Shelving(@Nullable Double minutes, @Nullable String by, @Nullable String reason) {}

  record TransitionJson(
      String what,
      Instant at,
      Instant recordedAt,
      @Nullable String by,
      @Nullable String note,
      List<AlertReasonJson> reasons) {
    static TransitionJson of(Transition transition) {
      return new TransitionJson(
          transition.what().key(),
          transition.at(),
          transition.recordedAt(),
          transition.by(),
          transition.note(),
          AlertReasonJson.of(transition.reasons()));
    }
  }

  record AlertHistory(AlertJson alert, List<TransitionJson> transitions) {}

  public AlertRoutes(
      Watch watch, AlertStore store, AlertViews views, ContainerRequests requests, Clock clock) {
    this.watch = watch;
    this.store = store;
    this.views = views;
    this.requests = requests;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/alerts", this::list);
    routes.get("/api/alerts/{alert}", this::show);
    routes.post("/api/alerts/{alert}/acknowledge", this::acknowledge);
    routes.post("/api/alerts/{alert}/shelve", this::shelve);
    routes.post("/api/alerts/{alert}/unshelve", this::unshelve);
  }

  private void list(Context ctx) {
    String parameter = ctx.queryParam("state");
    String state = parameter == null || parameter.isBlank() ? "open" : parameter;
    Instant now = clock.instant();
    AlertFilter filter = filter(ctx);
    Stream<Alert> alerts =
        switch (state) {
          case "open" -> open(alert -> !alert.shelvedAt(now), filter);
          case "active" -> open(Alert::active, filter);
          case "returned" -> open(alert -> !alert.active(), filter);
          case "shelved" -> open(alert -> alert.shelvedAt(now), filter);
          case "all", "history" -> store.history(filter).stream();
          default ->
              throw new InvalidInput(
                  "state", "must be open, active, returned, shelved, history or all");
        };
    ctx.json(alerts.map(views::alert).toList());
  }

  private AlertFilter filter(Context ctx) {
    Instant from = Params.instant(ctx, "from");
    Instant to = Params.instant(ctx, "to");
    if (from != null && to != null && to.isBefore(from)) {
      throw InvalidInput.order();
    }
    String container = ctx.queryParam("container");
    return new AlertFilter(
        container == null || container.isBlank() ? null : requests.existing(container).id(),
        from,
        to,
        Params.whole(ctx, "limit", DEFAULT_LIMIT, 1, MAX_LIMIT));
  }

  /** The newest open alerts that match, oldest first. */
  private Stream<Alert> open(Predicate<Alert> condition, AlertFilter filter) {
    return watch.openAlerts().stream()
        .filter(condition)
        .filter(filter::takes)
        .sorted(Comparator.comparing(Alert::raisedAt).thenComparing(Alert::id).reversed())
        .limit(filter.most())
        .sorted(Comparator.comparing(Alert::raisedAt).thenComparing(Alert::id));
  }

  private void show(Context ctx) {
    long id = id(ctx);
    // The state in memory of an open alert may be newer than the stored one.
    Alert alert =
        watch.openAlerts().stream()
            .filter(open -> open.id() == id)
            .findFirst()
            .or(() -> store.alert(id))
            .orElseThrow(() -> new NotFound("there is no alert " + id));
    List<TransitionJson> transitions =
        store.transitions(id).stream().map(TransitionJson::of).toList();
    ctx.json(new AlertHistory(views.alert(alert), transitions));
  }

  private void acknowledge(Context ctx) {
    String by = Params.person(Visitor.of(ctx).recordedAs(Params.body(ctx, Person.class).by()));
    ctx.json(views.alert(found(() -> watch.acknowledge(id(ctx), by))));
  }

  private void shelve(Context ctx) {
    Shelving shelving = Params.body(ctx, Shelving.class);
    String by = Params.person(Visitor.of(ctx).recordedAs(shelving.by()));
    String reason = Params.reason(shelving.reason());
    ctx.json(
        views.alert(
            found(
                () ->
                    watch.shelve(
                        id(ctx),
                        Params.minutes(shelving.minutes(), MAX_SHELVING_MINUTES),
                        by,
                        reason))));
  }

  private void unshelve(Context ctx) {
    String by = Params.person(Visitor.of(ctx).recordedAs(Params.body(ctx, Person.class).by()));
    ctx.json(views.alert(found(() -> watch.unshelve(id(ctx), by))));
  }

  private static Alert found(Supplier<Alert> change) {
    try {
      return change.get();
    } catch (NoSuchElementException e) {
      throw new NotFound(e.getMessage());
    }
  }

  private static long id(Context ctx) {
    try {
      return Long.parseLong(ctx.pathParam("alert"));
    } catch (NumberFormatException e) {
      throw new NotFound("there is no open alert \"" + ctx.pathParam("alert") + '"');
    }
  }
}
