package tepidarium.web.mappings;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.MappingRule;
import tepidarium.ingest.Mappings;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Routes for mapping rules: those there are, trying one on a message, saving and deleting one. */
public final class MappingRoutes {
  private final Mappings mappings;
  private final HeardMessages heard;
  private final Clock clock;

  public MappingRoutes(Mappings mappings, HeardMessages heard, Clock clock) {
    this.mappings = mappings;
    this.heard = heard;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/messages", ctx -> ctx.json(MappingJson.Messages.of(heard.newest())));
    routes.get("/api/messages/newest", this::message);
    routes.get("/api/mappings", ctx -> ctx.json(rules()));
    routes.post("/api/mappings", this::save);
    routes.post("/api/mappings/trial", this::tryRule);
    routes.delete("/api/mappings/{mapping}", this::remove);
  }

  private void message(Context ctx) {
    String topic = MappingJson.needTopic(ctx.queryParam("topic"));
    HeardMessages.Heard message = heard.newest(topic);
    if (message == null) {
      throw new NotFound("no message of the topic " + Params.shown(topic) + " is kept");
    }
    ctx.json(message);
  }

  private MappingJson.Rules rules() {
    return new MappingJson.Rules(
        mappings.configured(),
        mappings.saved(),
        MappingJson.QuantityUnits.all(),
        mappings.problems());
  }

  private void tryRule(Context ctx) {
    MappingJson.TrialRequest request = body(ctx, MappingJson.TrialRequest.class);
    ctx.json(
        MappingJson.Trial.of(
            mappings.trial(
                request.needRule(),
                MappingJson.needTopic(request.topic()),
                request.payload(),
                clock.instant())));
  }

  private void save(Context ctx) {
    MappingRule rule = body(ctx, MappingRule.class);
    ctx.status(HttpStatus.CREATED).json(mappings.add(rule, clock.instant()));
  }

  private void remove(Context ctx) {
    long id = Params.id(ctx, "mapping");
    if (!mappings.remove(id)) {
      throw new NotFound("there is no saved mapping rule " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }

  /** Reads a body. A rule checks its parts itself, as for the settings. */
  private static <T> T body(Context ctx, Class<T> type) {
    try {
      return Params.body(ctx, type);
    } catch (InvalidInput e) {
      throw e;
    } catch (IllegalArgumentException e) {
      throw new InvalidInput(String.valueOf(e.getMessage()), e);
    }
  }
}
