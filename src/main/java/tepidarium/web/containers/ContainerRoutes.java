package tepidarium.web.containers;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.germination.SeedJournal;
import tepidarium.live.Watch;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.web.ContainerRequests;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Routes for containers and their openings. */
public final class ContainerRoutes {
  private static final double MAX_OPENING_MINUTES = 240;

  private final Register register;
  private final SeedJournal seeds;
  private final ContainerViews views;
  private final Watch watch;
  private final ContainerRequests requests;
  private final Clock clock;

  /**
   * A request to record an opening; each field is optional.
   *
   * @param minutes length in minutes; default 10
   * @param from start, not in the future; default now. A past start records an opening afterwards.
   * @param until end, instead of minutes
   */
  record OpeningRequest(@Nullable Double minutes, @Nullable String from, @Nullable String until) {
    Span span(Instant now) {
      if (minutes != null && until != null) {
        throw new InvalidInput("minutes and until both give the end: send only one of them");
      }
      Instant start = from == null ? now : Params.instant("from", from);
      if (start.isAfter(now)) {
        throw InvalidInput.future("from", now);
      }
      return until == null
          ? new Span(start, start.plus(time()))
          : stretch(start, Params.instant("until", until));
    }

    private Duration time() {
      return Params.minutes(minutes == null ? 10.0 : minutes, MAX_OPENING_MINUTES);
    }

    private static Span stretch(Instant start, Instant end) {
      long longestMs = Math.round(MAX_OPENING_MINUTES * 60_000);
      if (!end.isAfter(start) || end.isAfter(start.plusMillis(longestMs))) {
        throw new InvalidInput(
            "until",
            "must lie after from, by at most " + (int) MAX_OPENING_MINUTES + " minutes",
            InputRule.OPENING.with((int) MAX_OPENING_MINUTES));
      }
      return new Span(start, end);
    }
  }

  /**
   * A part of the containers.
   *
   * @param total number of all containers
   * @param matching number of those that match search and room
   */
  record PartJson(int total, int matching, List<ContainerJson> containers) {}

  /**
   * @param containers number of containers in it
   */
  record RoomJson(String name, int containers) {}

  record OpeningJson(String container, Instant from, Instant until) {
    static OpeningJson of(Opening opening) {
      Span span = opening.span();
      return new OpeningJson(opening.container().value(), span.from(), span.to());
    }
  }

  public ContainerRoutes(
      Register register,
      SeedJournal seeds,
      ContainerViews views,
      Watch watch,
      ContainerRequests requests,
      Clock clock) {
    this.register = register;
    this.seeds = seeds;
    this.views = views;
    this.watch = watch;
    this.requests = requests;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/containers", this::list);
    routes.get("/api/rooms", this::rooms);
    routes.post("/api/containers", this::create);
    routes.get("/api/containers/{id}", this::show);
    routes.put("/api/containers/{id}", this::change);
    routes.delete("/api/containers/{id}", this::remove);
    routes.post("/api/containers/{id}/openings", this::open);
    routes.get("/api/containers/{id}/openings", this::openings);
    routes.post("/api/containers/{id}/openings/end", this::close);
  }

  private void list(Context ctx) {
    List<Container> all = register.containers();
    ContainerPart part = ContainerPart.of(ctx);
    if (part == null) {
      ctx.json(all.stream().map(views::container).toList());
      return;
    }
    List<Container> matching = part.matching(all, seeds, watch, clock.instant());
    ctx.json(
        new PartJson(
            all.size(),
            matching.size(),
            part.cut(matching).stream().map(views::container).toList()));
  }

  private void rooms(Context ctx) {
    Map<String, Integer> counts = new TreeMap<>();
    for (Container container : register.containers()) {
      String room = container.settings().room();
      if (room != null) {
        counts.merge(room, 1, Integer::sum);
      }
    }
    ctx.json(counts.entrySet().stream().map(e -> new RoomJson(e.getKey(), e.getValue())).toList());
  }

  private void create(Context ctx) {
    Container container = register.add(settings(ctx, null), clock.instant());
    ctx.status(HttpStatus.CREATED)
        .header("Location", "/api/containers/" + container.id())
        .json(views.container(container));
  }

  private static ContainerSettings settings(Context ctx, @Nullable String presentRoom) {
    return Params.body(ctx, ContainerJson.Request.class).settings(presentRoom);
  }

  private void show(Context ctx) {
    ctx.json(views.container(requests.container(ctx)));
  }

  private void change(Context ctx) {
    Container present = requests.container(ctx);
    register.change(present.id(), settings(ctx, present.settings().room()));
    ctx.json(views.container(requests.container(ctx)));
  }

  private void remove(Context ctx) {
    seeds.removeContainer(requests.container(ctx).id());
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private void open(Context ctx) {
    ContainerId id = requests.container(ctx).id();
    OpeningRequest request = Params.body(ctx, OpeningRequest.class);
    Opening opening = new Opening(id, request.span(clock.instant()));
    register.open(opening);
    ctx.status(HttpStatus.CREATED).json(OpeningJson.of(opening));
  }

  private void close(Context ctx) {
    ContainerId id = requests.container(ctx).id();
    List<Opening> ended = register.close(id, clock.instant());
    if (ended.isEmpty()) {
      throw new NotFound("\"" + id + "\" is not open now");
    }
    ctx.json(ended.stream().map(OpeningJson::of).toList());
  }

  private Instant to(Context ctx) {
    Instant to = Params.instant(ctx, "to");
    return to == null ? clock.instant() : to;
  }

  private void openings(Context ctx) {
    Container container = requests.container(ctx);
    // By default all openings, because a container may be opened before it has a sensor.
    Instant from = Params.instant(ctx, "from");
    Span span = requests.span(container.id(), from == null ? Instant.EPOCH : from, to(ctx));
    ctx.json(openings(container, span));
  }

  /** Also a part of charts. */
  public Object openings(Container container, Span span) {
    return register.openings(container.id(), span).stream().map(OpeningJson::of).toList();
  }
}
