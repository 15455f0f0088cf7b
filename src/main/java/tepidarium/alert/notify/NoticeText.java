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

  /**
   * Creates a writer.
   *
   * @param zone time zone for displayed times
   * @param publicUrl address of the pages, without a slash at its end; null for no link
   */
  public NoticeText(ZoneId zone, Units units, @Nullable String publicUrl) {
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
      List<AlertDetails> situations,
      List<NamedPendingAlert> along,
      List<Trouble> troubles,
      Instant now) {
    boolean one = situations.size() + along.size() + troubles.size() == 1;
    String subject = one ? subject(situations, troubles) : counted(situations, along, troubles);
    List<String> lines = new ArrayList<>();
    lines.addAll(opening(kind));
    if (one) {
      situations.forEach(situation -> lines.addAll(inFull(situation, now)));
      troubles.forEach(trouble -> lines.addAll(inFull(trouble, now)));
    } else {
      lines.addAll(listed(situations, troubles));
      lines.addAll(listed(along, LISTED - Math.min(LISTED, situations.size())));
    }
    boolean wrong = kind != NoticeKind.RETURNED;
    if (wrong) {
      lines.addAll(advice(situations, along, troubles, one));
    }
    String link = link(situations, along, troubles);
    if (link != null) {
      lines.add("");
      lines.add(link);
    }
    return new Notice(
        0,
        kind,
        priority,
        now,
        NoticeFormat.oneLine(prefix(kind) + subject),
        String.join("\n", lines) + '\n',
        link,
        about(situations, along, troubles));
  }

  private static List<Notice.About> about(
      List<AlertDetails> situations, List<NamedPendingAlert> along, List<Trouble> troubles) {
    List<Notice.About> about = new ArrayList<>();
    situations.forEach(situation -> about.add(situation.about()));
    along.stream().map(NamedPendingAlert::pending).map(NoticeText::about).forEach(about::add);
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
        0, NoticeKind.TEST, Priority.LOW, now, "Tepidarium: a test", text, link, List.of());
  }

  private static String prefix(NoticeKind kind) {
    return switch (kind) {
      case RAISED, TEST -> "";
      case RETURNED -> "Back to normal: ";
      case REMINDER -> "Still: ";
      case ESCALATION -> "Nobody has answered: ";
    };
  }

  private static List<String> opening(NoticeKind kind) {
    return switch (kind) {
      case RAISED, TEST -> List.of();
      case RETURNED -> List.of("Back to normal.", "");
      case REMINDER -> List.of("It still lasts.", "");
      case ESCALATION ->
          List.of("Nobody has acknowledged this yet, so it comes to you as the second.", "");
    };
  }

  private String subject(List<AlertDetails> situations, List<Trouble> troubles) {
    if (situations.isEmpty()) {
      return "Tepidarium: " + NoticeFormat.state(troubles.get(0).kind().key());
    }
    AlertDetails only = situations.get(0);
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

  /** Such as "14 containers: 10 too cold, 2 silent, 2 on the way there". */
  private static String counted(
      List<AlertDetails> situations, List<NamedPendingAlert> along, List<Trouble> troubles) {
    Map<String, Long> counts = new LinkedHashMap<>();
    situations.forEach(
        s -> counts.merge(NoticeFormat.state(s.alert().kind().key()), 1L, Long::sum));
    String kinds =
        counts.entrySet().stream()
            .map(entry -> entry.getValue() + " " + entry.getKey())
            .collect(Collectors.joining(", "));
    if (!along.isEmpty()) {
      kinds += ", " + along.size() + " on the way there";
    }
    long containers = containers(situations, along).size();
    String shelf =
        switch ((int) Math.min(containers, 2)) {
          case 0 -> "";
          case 1 -> situations.get(0).containerName() + ": " + kinds;
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
      List<AlertDetails> situations, List<NamedPendingAlert> along) {
    return Stream.concat(
            situations.stream().map(s -> s.alert().container()),
            along.stream().map(a -> a.pending().of().container()))
        .distinct()
        .map(ContainerId::value)
        .toList();
  }

  private List<String> inFull(AlertDetails situation, Instant now) {
    Alert alert = situation.alert();
    String topic = alert.kind().key();
    String unit = alert.kind().unit();
    List<String> lines = new ArrayList<>();
    lines.add(sentence(situation));
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
    lines.add("Costs      " + cost(situation));
    if (alert.acknowledged()) {
      lines.add("Seen by    " + NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy())));
    }
    return lines;
  }

  private String sentence(AlertDetails situation) {
    Alert alert = situation.alert();
    String name = NoticeFormat.oneLine(situation.containerName());
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

  private String cost(AlertDetails situation) {
    Double lost = situation.degreeHoursLost();
    if (lost != null) {
      return units.heat(lost) + " of heat lost so far, against staying at the limit";
    }
    return switch (situation.alert().kind().key()) {
      case "cold" -> "the heat lost cannot be told now";
      case "dry" -> "no heat, but drying kills such seed first";
      case "light" -> "no heat; germination in the dark is disturbed";
      case "hot" -> "no heat; what is too hot harms the seed itself";
      case "silent", "faulty" -> "not known: nothing can be said of this time";
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

  private List<String> listed(List<AlertDetails> situations, List<Trouble> troubles) {
    List<String> lines = new ArrayList<>();
    troubles.forEach(
        t -> lines.add(t.detail() + " (since " + NoticeFormat.when(t.since(), zone) + ')'));
    situations.stream().limit(LISTED).forEach(situation -> lines.add(inShort(situation)));
    if (situations.size() > LISTED) {
      lines.add("and " + (situations.size() - LISTED) + " more, on the page.");
    }
    double lost =
        situations.stream()
            .map(AlertDetails::degreeHoursLost)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .sum();
    if (lost > 0) {
      lines.add("");
      lines.add("Costs so far: " + units.heat(lost) + " of heat lost, in all.");
    }
    return lines;
  }

  private List<String> listed(List<NamedPendingAlert> along, int most) {
    if (along.isEmpty()) {
      return List.of();
    }
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add("Past the same limit, but for less than their delay so far; told here once:");
    along.stream().limit(most).forEach(one -> lines.add(inShort(one)));
    if (along.size() > most) {
      lines.add("and " + (along.size() - most) + " more, on the page.");
    }
    return lines;
  }

  private String inShort(NamedPendingAlert along) {
    PendingAlert pending = along.pending();
    String unit = pending.of().kind().unit();
    String worst =
        NoticeFormat.beyond(pending.topic()).isEmpty()
            ? ""
            : ", " + units.value(pending.worst(), unit) + " at worst";
    return "- "
        + NoticeFormat.oneLine(along.containerName())
        + ": since "
        + NoticeFormat.when(pending.since(), zone)
        + worst;
  }

  private String inShort(AlertDetails situation) {
    Alert alert = situation.alert();
    String topic = alert.kind().key();
    String worst = NoticeFormat.beyond(topic).isEmpty() ? "" : ", " + worst(alert);
    return "- "
        + NoticeFormat.oneLine(situation.containerName())
        + ": "
        + NoticeFormat.state(topic)
        + " since "
        + NoticeFormat.when(alert.since(), zone)
        + worst
        + (alert.active() ? "" : "; it has returned")
        + (alert.acknowledged()
            ? "; seen by " + NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy()))
            : "");
  }

  private static List<String> advice(
      List<AlertDetails> situations,
      List<NamedPendingAlert> along,
      List<Trouble> troubles,
      boolean one) {
    Map<String, Long> topics = new LinkedHashMap<>();
    situations.forEach(s -> topics.merge(s.alert().kind().key(), 1L, Long::sum));
    along.forEach(a -> topics.merge(a.pending().topic(), 1L, Long::sum));
    troubles.forEach(t -> topics.merge(t.kind().key(), 1L, Long::sum));
    List<String> lines = new ArrayList<>(List.of("", "What to do first"));
    if (topics.values().stream().anyMatch(count -> count >= ONE_CAUSE)) {
      lines.add("- So many at once have one cause: look at the power, the room, the network.");
    }
    topics.keySet().stream()
        .flatMap(topic -> FirstSteps.of(topic).stream().limit(one ? 3 : 2))
        .distinct()
        .forEach(step -> lines.add("- " + step));
    return lines;
  }

  private @Nullable String link(
      List<AlertDetails> situations, List<NamedPendingAlert> along, List<Trouble> troubles) {
    if (publicUrl == null) {
      return null;
    }
    List<String> containers = containers(situations, along);
    return containers.size() == 1 && troubles.isEmpty()
        ? publicUrl + "/container.html?id=" + containers.get(0)
        : publicUrl + '/';
  }
}
