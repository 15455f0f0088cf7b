package tepidarium.alert.notify;

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

  private final Units units;
  private final NoticeWords words;
  private final NoticeFormat format;
  private final AlertLines alertLines;
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
    this.units = units;
    this.words = new NoticeWords(units.language());
    this.format = new NoticeFormat(words, zone);
    this.alertLines = new AlertLines(units, format);
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
      alerts.forEach(details -> lines.addAll(alertLines.inFull(details, now)));
      troubles.forEach(trouble -> lines.addAll(alertLines.inFull(trouble, now)));
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
        NoticeFormat.oneLine(fromSite(withPrefix(kind, subject))),
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
        words.say("test.text")
            + "\n\n"
            + words.say("test.sent", format.when(now))
            + (publicUrl == null ? "\n" : "\n\n" + publicUrl + "/\n");
    String link = publicUrl == null ? null : publicUrl + '/';
    return new Notice(
        0,
        NoticeKind.TEST,
        Priority.LOW,
        now,
        fromSite(words.say("test.subject")),
        text,
        link,
        List.of());
  }

  /** Writes the daily summary. */
  public Notice summary(
      DailySummary facts, List<Alert> activeAlerts, List<Trouble> activeTroubles, Instant now) {
    Notice summary =
        new SummaryText(format).of(facts, activeAlerts, activeTroubles, publicUrl, now);
    return summary.withSubject(fromSite(summary.subject()));
  }

  private String fromSite(String subject) {
    return site == null ? subject : site + ": " + subject;
  }

  private String withPrefix(NoticeKind kind, String subject) {
    return switch (kind) {
      case RAISED, SUMMARY, TEST -> subject;
      case RETURNED -> words.say("prefix.returned", subject);
      case REMINDER -> words.say("prefix.reminder", subject);
      case ESCALATION -> words.say("prefix.escalation", subject);
    };
  }

  private List<String> opening(NoticeKind kind) {
    return switch (kind) {
      case RAISED, SUMMARY, TEST -> List.of();
      case RETURNED -> List.of(words.say("opening.returned"), "");
      case REMINDER -> List.of(words.say("opening.reminder"), "");
      case ESCALATION -> List.of(words.say("opening.escalation"), "");
    };
  }

  private String subject(List<AlertDetails> alerts, List<Trouble> troubles) {
    if (alerts.isEmpty()) {
      return "Tepidarium: " + format.state(troubles.get(0).kind().key());
    }
    AlertDetails only = alerts.get(0);
    Alert alert = only.alert();
    String topic = alert.kind().key();
    String state =
        alert.active()
            ? words.say("is", only.containerName(), format.state(topic))
            : words.say("was", only.containerName(), format.state(topic));
    String since = format.when(alert.since());
    return format.beyond(topic).isEmpty()
        ? words.say("subject.since", state, since)
        : words.say("subject.worst", state, units.value(alert.worst(), alert.kind().unit()), since);
  }

  /** Such as "14 containers: 10 too cold, 2 silent, 2 more past the limit". */
  private String counted(
      List<AlertDetails> alerts, List<NamedPendingAlert> pendingAlerts, List<Trouble> troubles) {
    String kinds = format.countsByState(alerts.stream().map(s -> s.alert().kind().key()));
    if (!pendingAlerts.isEmpty()) {
      kinds = words.say("pastLimit", kinds, pendingAlerts.size());
    }
    long containers = containers(alerts, pendingAlerts).size();
    String shelf =
        switch ((int) Math.min(containers, 2)) {
          case 0 -> "";
          case 1 -> alerts.get(0).containerName() + ": " + kinds;
          default -> words.say("containers", containers, kinds);
        };
    String service =
        troubles.stream().map(t -> format.state(t.kind().key())).collect(Collectors.joining(", "));
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

  private List<String> listed(List<AlertDetails> alerts, List<Trouble> troubles) {
    List<String> lines = new ArrayList<>();
    troubles.forEach(
        t -> lines.add(words.say("troubleSince", format.sentence(t), format.when(t.since()))));
    lines.addAll(format.listed(alerts, LISTED, alertLines::inShort));
    double lost =
        alerts.stream()
            .map(AlertDetails::degreeHoursLost)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .sum();
    if (lost > 0) {
      lines.add("");
      lines.add(words.say("lostInTotal", units.heat(lost)));
    }
    return lines;
  }

  private List<String> listed(List<NamedPendingAlert> pendingAlerts, int most) {
    if (pendingAlerts.isEmpty()) {
      return List.of();
    }
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add(words.say("pendingHead"));
    lines.addAll(format.listed(pendingAlerts, most, alertLines::inShort));
    return lines;
  }

  private List<String> advice(
      List<AlertDetails> alerts,
      List<NamedPendingAlert> pendingAlerts,
      List<Trouble> troubles,
      boolean one) {
    Map<String, Long> topics = new LinkedHashMap<>();
    alerts.forEach(s -> topics.merge(s.alert().kind().key(), 1L, Long::sum));
    pendingAlerts.forEach(a -> topics.merge(a.pending().topic(), 1L, Long::sum));
    troubles.forEach(t -> topics.merge(t.kind().key(), 1L, Long::sum));
    List<String> lines = new ArrayList<>(List.of("", words.say("first")));
    if (topics.values().stream().anyMatch(count -> count >= ONE_CAUSE)) {
      lines.add("- " + words.say("oneCause"));
    }
    topics.keySet().stream()
        .flatMap(topic -> words.sentences("steps." + topic).stream().limit(one ? 3 : 2))
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
