package tepidarium.web.alerts;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRule;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.alert.OutOfService;
import tepidarium.alert.Priority;
import tepidarium.alert.RuleChange;
import tepidarium.alert.RuleOverride;
import tepidarium.alert.Transition;
import tepidarium.container.Container;
import tepidarium.live.Watch;
import tepidarium.reading.InvalidInput;
import tepidarium.web.ContainerRequests;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/**
 * Routes for the alert rules of a container: the defaults, the overrides, and the effective rules.
 */
public final class AlertRuleRoutes {
  private static final int MAX_CHANGES = 100;
  private static final double MS_PER_MINUTE = 60_000;

  private final Watch watch;
  private final AlertRules rules;
  private final AlertStore store;
  private final ContainerRequests requests;

  /**
   * A change of alert rules. Missing kinds and fields stay unchanged; null restores the default.
   */
  record Request(
      @Nullable Map<String, @Nullable ObjectNode> rules,
      @Nullable String by,
      @Nullable String reason) {}

  record RuleJson(
      double limit,
      double deadband,
      double onDelayMinutes,
      double offDelayMinutes,
      String priority) {
    static RuleJson of(AlertRule rule) {
      return new RuleJson(
          rule.rule().limit().value(),
          rule.rule().deadband(),
          minutes(rule.rule().onDelay()),
          minutes(rule.rule().offDelay()),
          rule.priority().key());
    }
  }

  record OverrideJson(
      @Nullable Double limit,
      @Nullable Double deadband,
      @Nullable Double onDelayMinutes,
      @Nullable Double offDelayMinutes,
      @Nullable String priority) {
    static OverrideJson of(RuleOverride override) {
      return new OverrideJson(
          override.limit(),
          override.deadband(),
          override.onDelay() == null ? null : minutes(override.onDelay()),
          override.offDelay() == null ? null : minutes(override.offDelay()),
          override.priority() == null ? null : override.priority().key());
    }
  }

  record KindJson(
      String unit,
      boolean limitFromBand,
      RuleJson effective,
      RuleJson defaults,
      OverrideJson overrides,
      boolean inService,
      @Nullable OutOfService outOfService) {}

  record ServiceChangeJson(
      String kind, String what, Instant at, @Nullable String by, @Nullable String note) {
    static ServiceChangeJson of(Transition transition) {
      return new ServiceChangeJson(
          transition.key().kind().key(),
          transition.what().key(),
          transition.at(),
          transition.by(),
          transition.note());
    }
  }

  record RulesAnswer(
      String container, Map<String, KindJson> rules, List<ServiceChangeJson> serviceChanges) {}

  public AlertRuleRoutes(
      Watch watch, AlertRules rules, AlertStore store, ContainerRequests requests) {
    this.watch = watch;
    this.rules = rules;
    this.store = store;
    this.requests = requests;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers/{id}/alert-rules", this::show);
    routes.put("/api/containers/{id}/alert-rules", this::change);
  }

  private static double minutes(Duration delay) {
    return delay.toMillis() / MS_PER_MINUTE;
  }

  private void show(Context ctx) {
    ctx.json(answer(requests.container(ctx)));
  }

  private RulesAnswer answer(Container container) {
    Map<String, KindJson> kinds = new LinkedHashMap<>();
    for (AlertKind kind : AlertKind.values()) {
      AlertKey key = new AlertKey(container.id(), kind);
      kinds.put(
          kind.key(),
          new KindJson(
              kind.unit(),
              kind.limitFromBand(),
              RuleJson.of(rules.effective(key, container.band())),
              RuleJson.of(rules.standard(kind, container.band())),
              OverrideJson.of(rules.override(key)),
              rules.inService(key),
              rules.outOfService(key)));
    }
    List<ServiceChangeJson> changes =
        store.serviceChanges(container.id(), MAX_CHANGES).stream()
            .map(ServiceChangeJson::of)
            .toList();
    return new RulesAnswer(container.id().value(), kinds, changes);
  }

  private void change(Context ctx) {
    Container container = requests.container(ctx);
    Request request = Params.body(ctx, Request.class);
    String by = Params.person(Visitor.of(ctx).recordedAs(request.by()));
    String reason = Params.reason(request.reason());
    Map<AlertKind, RuleChange> changes = new EnumMap<>(AlertKind.class);
    if (request.rules() != null) {
      request
          .rules()
          .forEach((name, fields) -> changes.put(kind(name), change(container, name, fields)));
    }
    watch.change(container.id(), changes, by, reason);
    ctx.json(answer(container));
  }

  private static AlertKind kind(String name) {
    return AlertKind.ofKey(name)
        .orElseThrow(
            () ->
                new InvalidInput(
                    "there is no kind of alert \""
                        + name
                        + "\"; the kinds are "
                        + Arrays.stream(AlertKind.values())
                            .map(AlertKind::key)
                            .collect(Collectors.joining(", "))));
  }

  private RuleChange change(Container container, String name, @Nullable ObjectNode fields) {
    AlertKind kind = kind(name);
    RuleOverride override = rules.override(new AlertKey(container.id(), kind));
    if (fields == null) {
      return new RuleChange(RuleOverride.NONE, null);
    }
    Boolean inService = null;
    for (Map.Entry<String, JsonNode> field : fields.properties()) {
      String full = name + '.' + field.getKey();
      JsonNode value = field.getValue();
      if (field.getKey().equals("inService")) {
        inService = flag(full, value);
      } else {
        override = with(override, field.getKey(), full, value);
      }
    }
    override.check(kind);
    return new RuleChange(override, inService);
  }

  private static RuleOverride with(RuleOverride old, String field, String full, JsonNode value) {
    Double limit = old.limit();
    Double deadband = old.deadband();
    Duration onDelay = old.onDelay();
    Duration offDelay = old.offDelay();
    Priority priority = old.priority();
    switch (field) {
      case "limit" -> limit = number(full, value);
      case "deadband" -> deadband = number(full, value);
      case "onDelayMinutes" -> onDelay = delay(full, value);
      case "offDelayMinutes" -> offDelay = delay(full, value);
      case "priority" -> priority = priority(full, value);
      default ->
          throw new InvalidInput(
              "there is no field \""
                  + full
                  + "\" here; the fields are deadband, inService, limit, offDelayMinutes,"
                  + " onDelayMinutes, priority");
    }
    return new RuleOverride(limit, deadband, onDelay, offDelay, priority);
  }

  private static boolean flag(String name, JsonNode value) {
    if (!value.isBoolean()) {
      throw new InvalidInput(name, "must be true or false");
    }
    return value.booleanValue();
  }

  private static @Nullable Double number(String name, JsonNode value) {
    if (value.isNull()) {
      return null;
    }
    if (!value.isNumber() || !Double.isFinite(value.doubleValue())) {
      throw new InvalidInput(name, "must be a number, or null for the default");
    }
    return value.doubleValue();
  }

  private static @Nullable Duration delay(String name, JsonNode value) {
    Double minutes = number(name, value);
    if (minutes == null) {
      return null;
    }
    // Keeps the value within the range of a duration; the range check follows.
    double bounded = Math.max(-1e6, Math.min(1e6, minutes));
    return Duration.ofMillis(Math.round(bounded * MS_PER_MINUTE));
  }

  private static @Nullable Priority priority(String name, JsonNode value) {
    if (value.isNull()) {
      return null;
    }
    try {
      return Priority.valueOf(value.asText().toUpperCase(Locale.ROOT));
    } catch (IllegalArgumentException e) {
      throw new InvalidInput(name, "must be low, medium or high, or null for the default");
    }
  }
}
