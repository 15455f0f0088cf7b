package tepidarium.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertStore;
import tepidarium.live.Watch;

/** Alerts, and what a person does about them. */
final class AlertRoutes {
  private static final int NEWEST = 500;
  private static final double LONGEST_SHELVING_MINUTES = 7 * 24 * 60;

  private final Watch watch;
  private final AlertStore store;
  private final Views views;

  record Acknowledgement(@Nullable String by) {}

  record Shelving(@Nullable Double minutes) {}

  AlertRoutes(Watch watch, AlertStore store, Views views) {
    this.watch = watch;
    this.store = store;
    this.views = views;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/alerts", this::list);
    routes.post("/api/alerts/{alert}/acknowledge", this::acknowledge);
    routes.post("/api/alerts/{alert}/shelve", this::shelve);
  }

  private void list(Context ctx) {
    String asked = ctx.queryParam("state");
    String state = asked == null || asked.isBlank() ? "open" : asked;
    Instant now = views.now();
    List<Alert> alerts =
        switch (state) {
          case "open" -> open(alert -> !alert.shelvedAt(now));
          case "active" -> open(Alert::active);
          case "returned" -> open(alert -> !alert.active());
          case "shelved" -> open(alert -> alert.shelvedAt(now));
          case "all" -> store.newest(NEWEST);
          default -> throw new BadRequest("state must be open, active, returned, shelved or all");
        };
    ctx.json(alerts.stream().map(views::alert).toList());
  }

  private List<Alert> open(Predicate<Alert> which) {
    return watch.openAlerts().stream().filter(which).toList();
  }

  private void acknowledge(Context ctx) {
    String by = Params.body(ctx, Acknowledgement.class).by();
    String name = by == null || by.isBlank() ? "somebody" : by.strip();
    if (name.length() > 60) {
      throw new BadRequest("by must have at most 60 characters");
    }
    ctx.json(views.alert(found(() -> watch.acknowledge(id(ctx), name))));
  }

  private void shelve(Context ctx) {
    Shelving shelving = Params.body(ctx, Shelving.class);
    ctx.json(
        views.alert(
            found(
                () ->
                    watch.shelve(
                        id(ctx), Params.minutes(shelving.minutes(), LONGEST_SHELVING_MINUTES)))));
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
