package tepidarium.web.alerts;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.Performance;
import tepidarium.alert.RaisedAlert;
import tepidarium.alert.Rule;
import tepidarium.alert.RuleReplay;
import tepidarium.container.Container;
import tepidarium.container.Register;
import tepidarium.history.CalibratedReadings;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;
import tepidarium.web.Params;

/**
 * Route for the alert statistics: the number of alerts, the most frequent ones, and hints for
 * better rules.
 */
public final class PerformanceRoutes {
  private static final Duration DEFAULT_SPAN = Duration.ofDays(7);
  private static final int MAX_DAYS = 100;

  /** Maximum number of hints; each one reads the stored readings of the whole span. */
  private static final int MAX_HINTS = 10;

  private final Register register;
  private final CalibratedReadings calibrated;
  private final AlertStore store;
  private final AlertRules rules;
  private final Clock clock;

  record FloodJson(Instant from, Instant until) {}

  record HintJson(
      String setting,
      double deadband,
      long onDelaySeconds,
      long offDelaySeconds,
      int raisedBefore,
      int raisedAfter,
      String text) {}

  record GroupJson(
      String container,
      String containerName,
      String kind,
      int raised,
      double perDay,
      double share,
      boolean chattering,
      boolean repeating,
      int stale,
      @Nullable HintJson hint) {}

  record PerformanceJson(
      Instant from,
      Instant to,
      int raised,
      double perDay,
      int mostInTenMinutes,
      List<FloodJson> floods,
      int stale,
      List<GroupJson> groups) {}

  public PerformanceRoutes(
      Register register,
      CalibratedReadings calibrated,
      AlertStore store,
      AlertRules rules,
      Clock clock) {
    this.register = register;
    this.calibrated = calibrated;
    this.store = store;
    this.rules = rules;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/alerts/performance", this::performance);
  }

  private void performance(Context ctx) {
    Span span = span(Params.instant(ctx, "from"), Params.instant(ctx, "to"));
    List<RaisedAlert> raised = store.raised(span);
    Performance performance = Performance.of(raised, span, clock.instant());
    ctx.json(
        new PerformanceJson(
            span.from(),
            span.to(),
            performance.raised(),
            performance.perDay(),
            performance.mostInTenMinutes(),
            performance.floods().stream()
                .map(flood -> new FloodJson(flood.from(), flood.to()))
                .toList(),
            performance.groups().stream().mapToInt(Performance.Group::stale).sum(),
            groups(performance)));
  }

  /** The requested span, by default the last 7 days. */
  private Span span(@Nullable Instant from, @Nullable Instant to) {
    Instant end = to == null ? clock.instant() : to;
    Instant start = from == null ? end.minus(DEFAULT_SPAN) : from;
    if (end.isBefore(start)) {
      throw InvalidInput.order();
    }
    if (Duration.between(start, end).toDays() > MAX_DAYS) {
      throw InvalidInput.span(MAX_DAYS);
    }
    return new Span(start, end);
  }

  private List<GroupJson> groups(Performance performance) {
    List<GroupJson> groups = new ArrayList<>();
    int hints = 0;
    for (Performance.Group group : performance.groups()) {
      Container container = register.container(group.container()).orElse(null);
      HintJson hint = null;
      if (group.repeating() && container != null && hints < MAX_HINTS) {
        hints++;
        hint = hint(container, group.kind(), performance.span()).orElse(null);
      }
      groups.add(
          new GroupJson(
              group.container().value(),
              container == null ? group.container().value() : container.name(),
              group.kind().key(),
              group.raised(),
              group.perDay(),
              group.share(),
              group.chattering(),
              group.repeating(),
              group.stale(),
              hint));
    }
    return groups;
  }

  /** Computes a hint with the present limit; empty for kinds that do not evaluate a quantity. */
  private Optional<HintJson> hint(Container container, AlertKind kind, Span span) {
    Quantity quantity = kind.quantity();
    if (quantity == null) {
      return Optional.empty();
    }
    Rule rule = rules.effective(new AlertKey(container.id(), kind), container.band()).rule();
    Samples samples = calibrated.samples(container.id(), quantity, span);
    return RuleReplay.advice(samples, rule, calibrated.maxGap(), 2 * quantity.noise())
        .map(advice -> hint(advice, quantity));
  }

  private static HintJson hint(RuleReplay.Suggestion advice, Quantity quantity) {
    Rule rule = advice.rule();
    return new HintJson(
        setting(advice.changed()),
        rule.deadband(),
        rule.onDelay().toSeconds(),
        rule.offDelay().toSeconds(),
        advice.before(),
        advice.after(),
        String.format(
            Locale.ROOT,
            "With %s it would have been raised %d times instead of %d times.",
            change(advice, quantity),
            advice.after(),
            advice.before()));
  }

  private static String setting(RuleReplay.Setting setting) {
    return switch (setting) {
      case DEADBAND -> "deadband";
      case OFF_DELAY -> "offDelay";
      case ON_DELAY -> "onDelay";
    };
  }

  private static String change(RuleReplay.Suggestion advice, Quantity quantity) {
    Rule rule = advice.rule();
    return switch (advice.changed()) {
      case DEADBAND -> "a deadband of " + tidy(rule.deadband()) + ' ' + quantity.unit();
      case OFF_DELAY -> "an off-delay of " + minutes(rule.offDelay()) + " min";
      case ON_DELAY -> "an on-delay of " + minutes(rule.onDelay()) + " min";
    };
  }

  private static String minutes(Duration delay) {
    return tidy(delay.toSeconds() / 60.0);
  }

  private static String tidy(double value) {
    return String.format(Locale.ROOT, "%.2f", value).replaceAll("\\.?0+$", "");
  }
}
