package tepidarium.web.system;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.ServiceUnavailableResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import tepidarium.access.Role;
import tepidarium.ingest.IntakeCounts;
import tepidarium.ingest.RejectLog;
import tepidarium.live.Watch;
import tepidarium.web.Json;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/** Routes for health, set-up, the reject log, metrics, and the description of the API. */
public final class SystemRoutes {
  private static final int MAX_REJECTS = 1_000;

  /** Without one of these parts, no reading is stored. */
  private static final Set<String> NEEDED_PARTS = Set.of("broker", "readings", "records");

  private final ServiceInfo info;
  private final RejectLog rejectLog;
  private final Watch watch;
  private final Clock clock;

  record Health(
      String status,
      String version,
      Instant time,
      Map<String, ServiceInfo.Part> parts,
      IntakeCounts counts) {}

  record Live(boolean live) {}

  record Ready(boolean ready) {}

  record RejectJson(Instant at, String topic, String code, String reason, String payload) {}

  record Rejects(long total, int kept, List<RejectJson> rejects) {}

  public SystemRoutes(ServiceInfo info, RejectLog rejectLog, Watch watch, Clock clock) {
    this.info = info;
    this.rejectLog = rejectLog;
    this.watch = watch;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/health", this::health);
    routes.get("/api/health/live", this::live);
    routes.get("/api/health/ready", this::ready);
    routes.get("/api/setup", ctx -> ctx.json(info.setup()));
    routes.get("/api/rejects", this::rejects);
    routes.get("/metrics", this::metrics);
    routes.get(
        "/api/openapi.json",
        ctx -> ctx.contentType("application/json").result(Description.AS_JSON));
  }

  /** Converts the description on first use, because it is slow. */
  private static final class Description {
    static final String AS_JSON = description();
  }

  /** Answers monitors without a login with the status alone. */
  private void health(Context ctx) {
    Map<String, ServiceInfo.Part> parts = info.parts();
    boolean up = parts.values().stream().allMatch(ServiceInfo.Part::isUp);
    String status = up ? "up" : "degraded";
    if (Visitor.of(ctx).may(Role.LOOK)) {
      ctx.json(new Health(status, info.version(), clock.instant(), parts, info.counts()));
    } else {
      ctx.json(Map.of("status", status));
    }
  }

  private void live(Context ctx) {
    String problem = info.fatalProblem();
    if (problem != null) {
      throw unavailable(ctx, problem);
    }
    ctx.json(new Live(true));
  }

  private void ready(Context ctx) {
    String reasons =
        info.parts().entrySet().stream()
            .filter(part -> NEEDED_PARTS.contains(part.getKey()) && !part.getValue().isUp())
            .map(part -> part.getKey() + ": " + part.getValue().detail())
            .collect(Collectors.joining("; "));
    if (!reasons.isEmpty()) {
      throw unavailable(ctx, reasons);
    }
    ctx.json(new Ready(true));
  }

  /** A refusal without its reason for monitors without a login. */
  private static ServiceUnavailableResponse unavailable(Context ctx, String reason) {
    return new ServiceUnavailableResponse(
        Visitor.of(ctx).may(Role.LOOK) ? reason : "sign in to see the reason");
  }

  private void rejects(Context ctx) {
    int most = Params.whole(ctx, "limit", 100, 1, MAX_REJECTS);
    List<RejectLog.Line> lines = rejectLog.newest(MAX_REJECTS);
    List<RejectJson> shown =
        lines.stream()
            .limit(most)
            .map(RejectLog.Line::reject)
            .map(r -> new RejectJson(r.at(), r.topic(), r.code().key(), r.reason(), r.payload()))
            .toList();
    ctx.json(new Rejects(lines.isEmpty() ? 0 : lines.get(0).number(), lines.size(), shown));
  }

  private void metrics(Context ctx) {
    ctx.contentType("application/openmetrics-text; version=1.0.0; charset=utf-8")
        .result(Metrics.text(info, watch.openAlerts()));
  }

  /** Converts the API description from YAML to JSON. */
  private static String description() {
    try (InputStream yaml =
        Objects.requireNonNull(
            SystemRoutes.class.getResourceAsStream("/openapi.yaml"), "openapi.yaml is missing")) {
      ObjectMapper reader = new YAMLMapper();
      return Json.MAPPER.writeValueAsString(reader.readTree(yaml));
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read the API description", e);
    }
  }
}
