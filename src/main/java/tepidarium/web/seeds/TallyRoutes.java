package tepidarium.web.seeds;

import biweekly.Biweekly;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import biweekly.property.Uid;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.Register;
import tepidarium.germination.NextCheck;
import tepidarium.germination.SeedJournal;
import tepidarium.web.containers.ContainerJson;

/** Routes for the tally and the checks that are due. */
public final class TallyRoutes {
  private final SeedJournal journal;
  private final Register register;
  private final SeedViews seeds;
  private final Clock clock;
  private final ZoneId zone;

  record PlaceJson(String id, String name, String kind, @Nullable String room) {}

  record TallyJson(
      Instant now,
      List<PlaceJson> containers,
      List<SeedJson.SpeciesJson> species,
      List<SeedJson.LotJson> lots,
      List<SeedJson.SowingJson> sowings) {}

  record DueGroupJson(String group, long sowing, String speciesName, int seeds, NextCheck check) {}

  record DueJson(
      String container,
      String containerName,
      @Nullable String room,
      Instant at,
      LocalDate day,
      boolean overdue,
      List<DueGroupJson> groups) {}

  public TallyRoutes(
      SeedJournal journal, Register register, SeedViews seeds, Clock clock, ZoneId zone) {
    this.journal = journal;
    this.register = register;
    this.seeds = seeds;
    this.clock = clock;
    this.zone = zone;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/tally", this::tally);
    routes.get("/api/checks-due", ctx -> ctx.json(due()));
    routes.get("/api/checks-due.ics", this::calendar);
  }

  private void tally(Context ctx) {
    ctx.json(
        new TallyJson(
            clock.instant(),
            register.containers().stream()
                .map(
                    c ->
                        new PlaceJson(
                            c.id().value(), c.name(), ContainerJson.kindOf(c), c.settings().room()))
                .toList(),
            journal.species().all().stream().map(SeedJson.SpeciesJson::of).toList(),
            seeds.lots(),
            journal.sowings().stream().map(seeds::sowing).toList()));
  }

  /** The due checks by container, because one opening serves all its groups; most urgent first. */
  private List<DueJson> due() {
    Map<String, List<DueGroupJson>> byContainer = new TreeMap<>();
    for (SeedJson.SowingJson sowing : journal.sowings().stream().map(seeds::sowing).toList()) {
      for (SeedJson.GroupJson group : sowing.groups()) {
        NextCheck check = group.nextCheck();
        if (check != null) {
          int seeds = group.ungerminated() + group.germinated();
          byContainer
              .computeIfAbsent(group.container(), id -> new ArrayList<>())
              .add(new DueGroupJson(group.id(), sowing.id(), sowing.speciesName(), seeds, check));
        }
      }
    }
    return register.containers().stream()
        .filter(container -> byContainer.containsKey(container.id().value()))
        .map(
            container ->
                due(container, byContainer.getOrDefault(container.id().value(), List.of())))
        .sorted(Comparator.comparing(DueJson::at).thenComparing(DueJson::container))
        .toList();
  }

  private DueJson due(Container container, List<DueGroupJson> groups) {
    Instant at = groups.get(0).check().at();
    for (DueGroupJson group : groups) {
      at = group.check().at().isBefore(at) ? group.check().at() : at;
    }
    LocalDate day = at.atZone(zone).toLocalDate();
    boolean overdue = at.isBefore(clock.instant());
    return new DueJson(
        container.id().value(),
        container.name(),
        container.settings().room(),
        at,
        day,
        overdue,
        groups);
  }

  /** Sends the due checks as a calendar. An overdue check is shown today until it is done. */
  private void calendar(Context ctx) {
    ICalendar calendar = new ICalendar();
    calendar.setProductId("-//Tepidarium//Checks due//EN");
    Instant now = clock.instant();
    LocalDate today = now.atZone(zone).toLocalDate();
    for (DueJson due : due()) {
      LocalDate day = due.day().isBefore(today) ? today : due.day();
      calendar.addEvent(event(due, day, now));
    }
    ctx.contentType("text/calendar; charset=utf-8").result(Biweekly.write(calendar).go());
  }

  private VEvent event(DueJson due, LocalDate day, Instant now) {
    VEvent event = new VEvent();
    event.setUid(new Uid(uid(due)));
    event.setDateTimeStamp(Date.from(now));
    // The library converts the date in the time zone of this machine.
    event.setDateStart(Date.from(day.atStartOfDay(ZoneId.systemDefault()).toInstant()), false);
    event.setSummary("Check " + due.containerName());
    event.setDescription(words(due));
    return event;
  }

  /** A permanent, globally unique id from the container's id and its time of creation. */
  private String uid(DueJson due) {
    long createdAtMs =
        register.containers().stream()
            .filter(container -> container.id().value().equals(due.container()))
            .mapToLong(container -> container.createdAt().toEpochMilli())
            .sum();
    String name = due.container() + '/' + createdAtMs + "/check";
    return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)).toString();
  }

  private static String words(DueJson due) {
    StringBuilder words = new StringBuilder();
    for (DueGroupJson group : due.groups()) {
      words.append(
          "%s, group %s, %d seeds: %s%n"
              .formatted(group.speciesName(), group.group(), group.seeds(), group.check().why()));
    }
    return words.toString().strip();
  }
}
