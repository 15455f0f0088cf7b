package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertText;
import tepidarium.alert.Priority;
import tepidarium.container.ContainerId;

/**
 * Writes the text of notices. Each fits on one screen and names the container, the start of the
 * alert, the distance from the limit, the heat lost, the first steps, and a link.
 */
public final class NoticeText {
  /** Maximum number of alerts listed one by one. */
  private static final int LISTED = 20;

  /** This many alerts of one kind at once suggest a shared cause. */
  private static final int ONE_CAUSE = 3;

  private final ZoneId zone;
  private final Units units;
  private final @Nullable String publicUrl;
  private final @Nullable String site;

  /**
   * Creates a writer.
   *
   * @param zone time zone for displayed times
   * @param publicUrl address of the pages, without a slash at its end; null for no link
   */
  public NoticeText(ZoneId zone, Units units, @Nullable String publicUrl) {
    this(zone, units, publicUrl, null);
  }

  /**
   * The same with the name of the site, which begins each subject; null for none.
   *
   * @param site at most 40 characters
   */
  public NoticeText(ZoneId zone, Units units, @Nullable String publicUrl, @Nullable String site) {
    this.site = site;
    this.zone = zone;
    this.units = units;
    this.publicUrl = publicUrl;
  }

  /** A pending alert with the name of its container. */
  public record NamedPendingAlert(PendingAlert pending, String containerName) {}

  /** Writes a notice about one or more alerts and service troubles. */
  public Notice of(
      NoticeKind kind,
      Priority priority,
      List<AlertDetails> alerts,
      List<NamedPendingAlert> pendingAlerts,
      List<Trouble> troubles,
      Instant now) {
    boolean one = alerts.size() + pendingAlerts.size() + troubles.size() == 1;
    String subject = one ? subject(alerts, troubles) : counted(alerts, pendingAlerts, troubles);
    List<String> lines = new ArrayList<>();
    lines.addAll(opening(kind));
    if (one) {
      alerts.forEach(details -> lines.addAll(inFull(details, now)));
      troubles.forEach(trouble -> lines.addAll(inFull(trouble, now)));
    } else {
      lines.addAll(listed(alerts, troubles));
      lines.addAll(listed(pendingAlerts, LISTED - Math.min(LISTED, alerts.size())));
    }
    boolean wrong = kind != NoticeKind.RETURNED;
    if (wrong) {
      lines.addAll(advice(alerts, pendingAlerts, troubles, one));
    }
    String link = link(alerts, pendingAlerts, troubles);
    if (link != null) {
      lines.add("");
      lines.add(link);
    }
    return new Notice(
        0,
        kind,
        priority,
        now,
        NoticeFormat.oneLine(fromSite(prefix(kind) + subject)),
        String.join("\n", lines) + '\n',
        link,
        about(alerts, pendingAlerts, troubles));
  }

  private static List<Notice.About> about(
      List<AlertDetails> alerts, List<NamedPendingAlert> pendingAlerts, List<Trouble> troubles) {
    List<Notice.About> about = new ArrayList<>();
    alerts.forEach(details -> about.add(details.about()));
    pendingAlerts.stream()
        .map(NamedPendingAlert::pending)
        .map(NoticeText::about)
        .forEach(about::add);
    troubles.forEach(t -> about.add(new Notice.About(null, null, t.kind().key(), t.active())));
    return about;
  }

  private static Notice.About about(PendingAlert pending) {
    return new Notice.About(null, pending.of().container().value(), pending.topic(), true);
  }

  /** Writes a test notice. */
  public Notice test(Instant now) {
    String text =
        "This is a test. Notices about your containers reach you this way.\n\n"
            + "Sent "
            + NoticeFormat.when(now, zone)
            + (publicUrl == null ? ".\n" : ".\n\n" + publicUrl + "/\n");
    String link = publicUrl == null ? null : publicUrl + '/';
    return new Notice(
        0,
        NoticeKind.TEST,
        Priority.LOW,
        now,
        fromSite("Tepidarium: a test"),
        text,
        link,
        List.of());
  }

  /** Writes the daily summary. */
  public Notice summary(
      DailySummary facts, List<Alert> activeAlerts, List<Trouble> activeTroubles, Instant now) {
    Notice summary = SummaryText.of(facts, activeAlerts, activeTroubles, publicUrl, now);
    return summary.withSubject(fromSite(summary.subject()));
  }

  private String fromSite(String subject) {
    return site == null ? subject : site + ": " + subject;
  }

  private static String prefix(NoticeKind kind) {
    return switch (kind) {
      case RAISED, SUMMARY, TEST -> "";
      case RETURNED -> "Back to normal: ";
      case REMINDER -> "Still: ";
      case ESCALATION -> "Not acknowledged: ";
    };
  }

  private static List<String> opening(NoticeKind kind) {
    return switch (kind) {
      case RAISED, SUMMARY, TEST -> List.of();
      case RETURNED -> List.of("Back to normal.", "");
      case REMINDER -> List.of("This is still active.", "");
      case ESCALATION ->
          List.of(
              "Nobody has acknowledged this yet, so this notice also goes to you, the second contact.",
              "");
    };
  }

  private String subject(List<AlertDetails> alerts, List<Trouble> troubles) {
    if (alerts.isEmpty()) {
      return "Tepidarium: " + NoticeFormat.state(troubles.get(0).kind().key());
    }
    AlertDetails only = alerts.get(0);
    Alert alert = only.alert();
    String topic = alert.kind().key();
    String state =
        only.containerName() + (alert.active() ? " is " : " was ") + NoticeFormat.state(topic);
    String worst =
        NoticeFormat.beyond(topic).isEmpty()
            ? ""
            : ", " + units.value(alert.worst(), alert.kind().unit()) + " at worst";
    return state + worst + ", since " + NoticeFormat.when(alert.since(), zone);
  }

  /** Such as "14 containers: 10 too cold, 2 silent, 2 more past the limit". */
  private static String counted(
      List<AlertDetails> alerts, List<NamedPendingAlert> pendingAlerts, List<Trouble> troubles) {
    String kinds = NoticeFormat.countsByState(alerts.stream().map(s -> s.alert().kind().key()));
    if (!pendingAlerts.isEmpty()) {
      kinds += ", " + pendingAlerts.size() + " more past the limit";
    }
    long containers = containers(alerts, pendingAlerts).size();
    String shelf =
        switch ((int) Math.min(containers, 2)) {
          case 0 -> "";
          case 1 -> alerts.get(0).containerName() + ": " + kinds;
          default -> containers + " containers: " + kinds;
        };
    String service =
        troubles.stream()
            .map(t -> NoticeFormat.state(t.kind().key()))
            .collect(Collectors.joining(", "));
    return Stream.of(shelf, service.isEmpty() ? "" : "Tepidarium: " + service)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private static List<String> containers(
      List<AlertDetails> alerts, List<NamedPendingAlert> pendingAlerts) {
    return Stream.concat(
            alerts.stream().map(s -> s.alert().container()),
            pendingAlerts.stream().map(a -> a.pending().of().container()))
        .distinct()
        .map(ContainerId::value)
        .toList();
  }

  private List<String> inFull(AlertDetails details, Instant now) {
    Alert alert = details.alert();
    String topic = alert.kind().key();
    String unit = alert.kind().unit();
    List<String> lines = new ArrayList<>();
    lines.add(sentence(details));
    lines.add("");
    Instant end = alert.returnedAt() == null ? now : alert.returnedAt();
    String length = NoticeFormat.length(Duration.between(alert.since(), end));
    lines.add("Since      " + NoticeFormat.when(alert.since(), zone) + ", " + length);
    if (alert.returnedAt() != null) {
      lines.add("Until      " + NoticeFormat.when(alert.returnedAt(), zone));
    }
    String beyond = NoticeFormat.beyond(topic);
    if (!beyond.isEmpty()) {
      lines.add("Limit      " + units.value(alert.limit(), unit));
      lines.add("Last value " + units.value(alert.latest(), unit));
      lines.add("At worst   " + worst(alert));
    }
    lines.add("Costs      " + cost(details));
    if (alert.acknowledged()) {
      lines.add("Seen by    " + NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy())));
    }
    return lines;
  }

  private String sentence(AlertDetails details) {
    Alert alert = details.alert();
    String name = NoticeFormat.oneLine(details.containerName());
    String verb = alert.active() ? " is " : " was ";
    String limit = units.value(alert.limit(), alert.kind().unit());
    return switch (alert.kind().key()) {
      case "cold" -> name + verb + "colder than " + limit + '.';
      case "hot" -> name + verb + "hotter than " + limit + '.';
      case "light" -> name + verb + "brighter than " + limit + '.';
      case "dry" -> name + verb + "drier than " + limit + '.';
      default -> AlertText.of(alert, name, zone);
    };
  }

  private String worst(Alert alert) {
    String unit = alert.kind().unit();
    return units.value(alert.worst(), unit)
        + ", "
        + units.distance(Math.abs(alert.worst() - alert.limit()), unit)
        + ' '
        + NoticeFormat.beyond(alert.kind().key())
        + " the limit";
  }

  private String cost(AlertDetails details) {
    Double lost = details.degreeHoursLost();
    if (lost != null) {
      return units.heat(lost) + " of heat lost so far, compared with staying at the limit";
    }
    return switch (details.alert().kind().key()) {
      case "cold" -> "the heat lost is not known now";
      case "dry" -> "no heat; but drying out kills this kind of seed first";
      case "light" -> "no heat; but light disturbs germination in the dark";
      case "hot" -> "no heat; but too much heat harms the seed itself";
      case "silent", "faulty" -> "not known: there are no reliable readings for this time";
      default -> "no heat so far";
    };
  }

  private List<String> inFull(Trouble trouble, Instant now) {
    Instant end = trouble.endedAt() == null ? now : trouble.endedAt();
    List<String> lines = new ArrayList<>(List.of(trouble.detail(), ""));
    String length = NoticeFormat.length(Duration.between(trouble.since(), end));
    lines.add(
        trouble.kind() == Trouble.Kind.CLOCK
            ? "Noticed    " + NoticeFormat.when(trouble.since(), zone)
            : "Since      " + NoticeFormat.when(trouble.since(), zone) + ", " + length);
    return lines;
  }

  private List<String> listed(List<AlertDetails> alerts, List<Trouble> troubles) {
    List<String> lines = new ArrayList<>();
    troubles.forEach(
        t -> lines.add(t.detail() + " (since " + NoticeFormat.when(t.since(), zone) + ')'));
    lines.addAll(NoticeFormat.listed(alerts, LISTED, this::inShort));
    double lost =
        alerts.stream()
            .map(AlertDetails::degreeHoursLost)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .sum();
    if (lost > 0) {
      lines.add("");
      lines.add("Costs so far: " + units.heat(lost) + " of heat lost in total.");
    }
    return lines;
  }

  private List<String> listed(List<NamedPendingAlert> pendingAlerts, int most) {
    if (pendingAlerts.isEmpty()) {
      return List.of();
    }
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add("Also past the limit, but for less than the delay. No notice of their own follows:");
    lines.addAll(NoticeFormat.listed(pendingAlerts, most, this::inShort));
    return lines;
  }

  private String inShort(NamedPendingAlert pendingAlerts) {
    PendingAlert pending = pendingAlerts.pending();
    String unit = pending.of().kind().unit();
    String worst =
        NoticeFormat.beyond(pending.topic()).isEmpty()
            ? ""
            : ", " + units.value(pending.worst(), unit) + " at worst";
    return "- "
        + NoticeFormat.oneLine(pendingAlerts.containerName())
        + ": since "
        + NoticeFormat.when(pending.since(), zone)
        + worst;
  }

  private String inShort(AlertDetails details) {
    Alert alert = details.alert();
    String topic = alert.kind().key();
    String worst = NoticeFormat.beyond(topic).isEmpty() ? "" : ", " + worst(alert);
    return "- "
        + NoticeFormat.oneLine(details.containerName())
        + ": "
        + NoticeFormat.state(topic)
        + " since "
        + NoticeFormat.when(alert.since(), zone)
        + worst
        + (alert.active() ? "" : "; it is back to normal")
        + (alert.acknowledged()
            ? "; seen by " + NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy()))
            : "");
  }

  private static List<String> advice(
      List<AlertDetails> alerts,
      List<NamedPendingAlert> pendingAlerts,
      List<Trouble> troubles,
      boolean one) {
    Map<String, Long> topics = new LinkedHashMap<>();
    alerts.forEach(s -> topics.merge(s.alert().kind().key(), 1L, Long::sum));
    pendingAlerts.forEach(a -> topics.merge(a.pending().topic(), 1L, Long::sum));
    troubles.forEach(t -> topics.merge(t.kind().key(), 1L, Long::sum));
    List<String> lines = new ArrayList<>(List.of("", "What to do first"));
    if (topics.values().stream().anyMatch(count -> count >= ONE_CAUSE)) {
      lines.add("- Several at once suggest one cause: check the power, the room and the network.");
    }
    topics.keySet().stream()
        .flatMap(topic -> FirstSteps.of(topic).stream().limit(one ? 3 : 2))
        .distinct()
        .forEach(step -> lines.add("- " + step));
    return lines;
  }

  private @Nullable String link(
      List<AlertDetails> alerts, List<NamedPendingAlert> pendingAlerts, List<Trouble> troubles) {
    if (publicUrl == null) {
      return null;
    }
    List<String> containers = containers(alerts, pendingAlerts);
    return containers.size() == 1 && troubles.isEmpty()
        ? publicUrl + "/container.html?id=" + containers.get(0)
        : publicUrl + '/';
  }
}
