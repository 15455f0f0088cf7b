package tepidarium.web.containers;

import io.javalin.http.Context;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertKind;
import tepidarium.alert.LimitState;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.germination.GroupState;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.germination.SowingTimeline;
import tepidarium.live.Watch;
import tepidarium.reading.InvalidInput;
import tepidarium.web.Params;

/**
 * Selects a part of the containers, for gardens with more than one page can show.
 *
 * @param limit most containers to select
 * @param offset number of containers to leave out in front
 * @param search part of the name, room, heat source or species, in any case; null for all
 * @param room null for all rooms
 */
record ContainerPart(
    int limit, int offset, Sort sort, @Nullable String search, @Nullable String room) {
  static final int MAX_LIMIT = 1000;

  enum Sort {
    /** Oldest first. */
    AGE,
    NAME,
    /** Those that need a person first; the order is that of {@link #rank}. */
    WORST
  }

  /**
   * Reads the parameters; null if there is no {@code limit}, because then all containers are meant.
   */
  static @Nullable ContainerPart of(Context ctx) {
    String limit = ctx.queryParam("limit");
    if (limit == null || limit.isBlank()) {
      return null;
    }
    return new ContainerPart(
        Params.whole(ctx, "limit", MAX_LIMIT, 1, MAX_LIMIT),
        Params.whole(ctx, "offset", 0, 0, Integer.MAX_VALUE),
        sort(ctx.queryParam("sort")),
        lower(ctx.queryParam("search")),
        ctx.queryParam("room"));
  }

  private static Sort sort(@Nullable String text) {
    if (text == null || text.isBlank()) {
      return Sort.AGE;
    }
    return switch (text) {
      case "age" -> Sort.AGE;
      case "name" -> Sort.NAME;
      case "worst" -> Sort.WORST;
      default -> throw new InvalidInput("sort", "must be age, name or worst");
    };
  }

  private static @Nullable String lower(@Nullable String text) {
    return text == null || text.isBlank() ? null : text.strip().toLowerCase(Locale.ROOT);
  }

  /** All containers that match, in order, without regard to limit and offset. */
  List<Container> matching(
      List<Container> containers, SeedJournal journal, Watch watch, Instant now) {
    Stream<Container> found = containers.stream().filter(wanted(journal));
    return switch (sort) {
      case AGE -> found.toList();
      case NAME -> found.sorted(byName()).toList();
      case WORST -> {
        Map<ContainerId, Integer> ranks = new HashMap<>();
        containers.forEach(one -> ranks.put(one.id(), rank(one.id(), watch, now)));
        yield found
            .sorted(
                Comparator.<Container, Integer>comparing(
                        one -> Objects.requireNonNull(ranks.get(one.id())))
                    .thenComparing(byName()))
            .toList();
      }
    };
  }

  private static Comparator<Container> byName() {
    return Comparator.comparing(container -> container.name().toLowerCase(Locale.ROOT));
  }

  private Predicate<Container> wanted(SeedJournal journal) {
    Predicate<Container> inRoom =
        container -> room == null || room.equals(container.settings().room());
    String part = search;
    if (part == null) {
      return inRoom;
    }
    Map<ContainerId, String> species = species(journal);
    return inRoom.and(
        container ->
            Stream.of(
                    container.name(),
                    container.settings().room(),
                    container.settings().heatSource(),
                    species.get(container.id()))
                .anyMatch(text -> text != null && text.toLowerCase(Locale.ROOT).contains(part)));
  }

  /** The names of the species that lie in each container. */
  private static Map<ContainerId, String> species(SeedJournal journal) {
    Map<ContainerId, String> names = new HashMap<>();
    for (Sowing sowing : journal.sowings()) {
      SowingTimeline timeline = sowing.timeline();
      if (timeline != null) {
        long lot = timeline.sowing().lot();
        String id = journal.lots().find(lot).orElseThrow().details().species();
        String name = journal.species().existing(id).name();
        for (GroupState group : timeline.groups()) {
          if (group.living() > 0) {
            names.merge(group.container(), name, (a, b) -> a + '\n' + b);
          }
        }
      }
    }
    return names;
  }

  /**
   * How urgently a container needs a person: 0 an active alert that nobody has acknowledged or
   * shelved, 1 outside a limit, 2 only handled alerts, 3 no temperature yet, 4 none of these.
   */
  private static int rank(ContainerId id, Watch watch, Instant now) {
    boolean unhandled =
        watch.openAlerts(id).stream()
            .anyMatch(one -> one.active() && !one.acknowledged() && !one.shelvedAt(now));
    if (unhandled) {
      return 0;
    }
    Map<AlertKind, LimitState> states = watch.states(id);
    if (states.containsValue(LimitState.OUTSIDE)) {
      return 1;
    }
    if (states.containsValue(LimitState.ALERT)) {
      return 2;
    }
    return states.get(AlertKind.COLD) == LimitState.UNKNOWN ? 3 : 4;
  }

  List<Container> cut(List<Container> matching) {
    return matching.stream().skip(offset).limit(limit).toList();
  }
}
