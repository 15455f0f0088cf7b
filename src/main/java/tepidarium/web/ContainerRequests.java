package tepidarium.web;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/** Reads the container and the time span from a request. */
public final class ContainerRequests {
  /** Maximum span in days, about 20 years; bounds the memory for hourly values. */
  private static final int MAX_DAYS = 7_500;

  private final Register register;
  private final ContainerHistory history;
  private final Clock clock;

  public ContainerRequests(Register register, ContainerHistory history, Clock clock) {
    this.register = register;
    this.history = history;
    this.clock = clock;
  }

  /**
   * Returns the container of the path parameter {@code id}.
   *
   * @throws NotFound if there is none
   */
  public Container container(Context ctx) {
    return existing(ctx.pathParam("id"));
  }

  /**
   * Returns the container with an id.
   *
   * @throws NotFound if there is none
   */
  public Container existing(String id) {
    return ContainerId.ofText(id)
        .flatMap(register::container)
        .orElseThrow(() -> new NotFound("there is no container \"" + id + '"'));
  }

  /**
   * The span of the parameters {@code from} and {@code to}. A missing parameter means the start of
   * the container's data or now.
   *
   * @throws InvalidInput if it is longer than 20 years
   */
  public Span span(Context ctx, ContainerId id) {
    Span span = span(id, Params.instant(ctx, "from"), Params.instant(ctx, "to"));
    if (span.length().toDays() > MAX_DAYS) {
      throw InvalidInput.span(MAX_DAYS);
    }
    return span;
  }

  /** The span between two instants; null means the start of the data, or now. */
  public Span span(ContainerId id, @Nullable Instant from, @Nullable Instant to) {
    Instant now = clock.instant();
    Span extent = history.extent(id, now).orElse(new Span(now, now));
    Instant start = from == null ? extent.from() : from;
    Instant end = to == null ? extent.to() : to;
    if (end.isBefore(start)) {
      if (from != null && to != null) {
        throw InvalidInput.order();
      }
      return from == null ? new Span(end, end) : new Span(start, start);
    }
    return new Span(start, end);
  }

  public Instant now() {
    return clock.instant();
  }
}
