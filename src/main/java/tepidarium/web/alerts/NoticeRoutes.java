package tepidarium.web.alerts;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.AlertNotices;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.NoticeJson;
import tepidarium.alert.notify.NoticeStore.DeliveryCounts;
import tepidarium.alert.notify.NoticeWait;
import tepidarium.alert.notify.Notices;
import tepidarium.alert.notify.Notifier;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;

/** Routes for notices with their deliveries, and for notifiers with a test. */
public final class NoticeRoutes {
  private static final int MAX_DELIVERIES = 1_000;

  private final Notices notices;

  /** The delivery of a notice through one notifier. */
  record DeliveryJson(
      String notifier,
      String state,
      int attempts,
      @Nullable Instant nextAt,
      @Nullable Instant settledAt,
      @Nullable String words) {
    static DeliveryJson of(Delivery delivery) {
      boolean waits = delivery.state() == Delivery.State.WAITING;
      return new DeliveryJson(
          delivery.notifier(),
          delivery.state().key(),
          delivery.attempts(),
          waits ? delivery.nextAt() : null,
          delivery.settledAt(),
          delivery.words());
    }
  }

  record Sent(NoticeJson notice, List<DeliveryJson> deliveries) {}

  record NotifierJson(
      String name,
      String kind,
      String target,
      boolean onlyForEscalation,
      long waiting,
      long failed,
      @Nullable Instant lastDeliveredAt,
      @Nullable String trouble) {
    static NotifierJson of(Notifier notifier, DeliveryCounts counts) {
      return new NotifierJson(
          notifier.name(),
          notifier.kind(),
          notifier.target(),
          notifier.onlyForEscalation(),
          counts.waiting(),
          counts.failed(),
          counts.lastDeliveredAt(),
          counts.trouble());
    }
  }

  record WaitJson(String reason, @Nullable Instant until) {
    static @Nullable WaitJson of(@Nullable NoticeWait wait) {
      return wait == null ? null : new WaitJson(wait.reason().key(), wait.until());
    }
  }

  /** The delivery of a notice about an alert. */
  record AboutAlertJson(String kind, Instant createdAt, DeliveryJson delivery) {
    static AboutAlertJson of(Delivery delivery) {
      Notice notice = delivery.notice();
      return new AboutAlertJson(notice.kind().key(), notice.createdAt(), DeliveryJson.of(delivery));
    }
  }

  record AlertNoticesJson(
      long alert,
      @Nullable Instant announcedAt,
      @Nullable WaitJson waiting,
      List<AboutAlertJson> notices) {
    static AlertNoticesJson of(AlertNotices one) {
      return new AlertNoticesJson(
          one.alert(),
          one.announcedAt(),
          WaitJson.of(one.waiting()),
          one.deliveries().stream().map(AboutAlertJson::of).toList());
    }
  }

  record Tested(boolean delivered, String words) {}

  public NoticeRoutes(Notices notices) {
    this.notices = notices;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/notices", this::list);
    routes.get(
        "/api/alerts/notices",
        ctx ->
            ctx.json(notices.ofAlerts(MAX_DELIVERIES).stream().map(AlertNoticesJson::of).toList()));
    routes.get("/api/notifiers", this::notifiers);
    routes.post("/api/notifiers/{name}/test", this::test);
  }

  private void list(Context ctx) {
    String parameter = ctx.queryParam("state");
    String name = parameter == null || parameter.isBlank() ? "all" : parameter;
    Delivery.State state =
        switch (name) {
          case "all" -> null;
          case "waiting" -> Delivery.State.WAITING;
          case "delivered" -> Delivery.State.DELIVERED;
          case "failed" -> Delivery.State.FAILED;
          case "perhaps-sent" -> Delivery.State.PERHAPS_SENT;
          default ->
              throw new InvalidInput(
                  "state", "must be all, waiting, delivered, failed or perhaps-sent");
        };
    Map<Long, List<Delivery>> byNotice = new LinkedHashMap<>();
    for (Delivery delivery : notices.deliveries(state, MAX_DELIVERIES)) {
      byNotice.computeIfAbsent(delivery.notice().id(), id -> new ArrayList<>()).add(delivery);
    }
    ctx.json(byNotice.values().stream().map(NoticeRoutes::sent).toList());
  }

  private static Sent sent(List<Delivery> deliveries) {
    return new Sent(
        NoticeJson.of(deliveries.get(0).notice()),
        deliveries.stream().map(DeliveryJson::of).toList());
  }

  private void notifiers(Context ctx) {
    Map<String, DeliveryCounts> counts = notices.deliveryCounts();
    ctx.json(
        notices.notifiers().stream()
            .map(n -> NotifierJson.of(n, counts.getOrDefault(n.name(), DeliveryCounts.NOTHING)))
            .toList());
  }

  private void test(Context ctx) {
    String name = ctx.pathParam("name");
    Notifier notifier =
        notices.notifiers().stream()
            .filter(found -> found.name().equals(name))
            .findFirst()
            .orElseThrow(() -> new NotFound("there is no notifier \"" + name + '"'));
    DeliveryOutcome outcome = notices.test(notifier);
    ctx.json(new Tested(outcome.result() == DeliveryOutcome.Result.DELIVERED, outcome.words()));
  }
}
