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
 * Writes notices: plain text for one screen, with what is wrong where and since when, how far
 * outside, what it costs the seeds, what to do first, and a link.
 */
public final class NoticeText {
  /** How many are listed one by one. */
  private static final int LISTED = 20;

  /** So many of the same kind at once have one cause rather than many. */
  private static final int ONE_CAUSE = 3;

  private final ZoneId zone;
  private final Units units;
  private final @Nullable String publicUrl;

  /**
   * Prepares to write.
   *
   * @param zone in which to tell the time
   * @param publicUrl where the pages are reached, without a slash at its end; null for no link
   */
  public NoticeText(ZoneId zone, Units units, @Nullable String publicUrl) {
    this.zone = zone;
    this.units = units;
    this.publicUrl = publicUrl;
  }

  /** One that is told along before its alert is raised, with what the grower calls it. */
  public record Along(PendingAlert coming, String containerName) {}

  /** A notice about alerts and troubles of the service, one or many. */
  public Notice of(
      NoticeKind kind,
      Priority priority,
      List<Situation> situations,
      List<Along> along,
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
        Words.oneLine(prefix(kind) + subject),
        String.join("\n", lines) + '\n',
        link,
        about(situations, along, troubles));
  }

  private static List<Notice.About> about(
      List<Situation> situations, List<Along> along, List<Trouble> troubles) {
    List<Notice.About> about = new ArrayList<>();
    situations.forEach(situation -> about.add(situation.about()));
    along.stream().map(Along::coming).map(NoticeText::about).forEach(about::add);
    troubles.forEach(t -> about.add(new Notice.About(null, null, t.kind().key(), t.active())));
    return about;
  }

  private static Notice.About about(PendingAlert coming) {
    return new Notice.About(null, coming.of().container().value(), coming.topic(), true);
  }

  /** One that only shows that notices arrive. */
  public Notice test(Instant now) {
    String text =
        "This is a test. Notices about your containers reach you this way.\n\n"
            + "Sent "
            + Words.when(now, zone)
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

  private String subject(List<Situation> situations, List<Trouble> troubles) {
    if (situations.isEmpty()) {
      return "Tepidarium: " + Words.state(troubles.get(0).kind().key());
    }
    Situation only = situations.get(0);
    Alert alert = only.alert();
    String topic = alert.kind().key();
    String state = only.containerName() + (alert.active() ? " is " : " was ") + Words.state(topic);
    String worst =
        Words.beyond(topic).isEmpty()
            ? ""
            : ", " + units.value(alert.worst(), alert.kind().unit()) + " at worst";
    return state + worst + ", since " + Words.when(alert.since(), zone);
  }

  /** Such as "14 containers: 10 too cold, 2 silent, 2 on the way there". */
  private static String counted(
      List<Situation> situations, List<Along> along, List<Trouble> troubles) {
    Map<String, Long> counts = new LinkedHashMap<>();
    situations.forEach(s -> counts.merge(Words.state(s.alert().kind().key()), 1L, Long::sum));
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
        troubles.stream().map(t -> Words.state(t.kind().key())).collect(Collectors.joining(", "));
    return Stream.of(shelf, service.isEmpty() ? "" : "Tepidarium: " + service)
        .filter(part -> !part.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private static List<String> containers(List<Situation> situations, List<Along> along) {
    return Stream.concat(
            situations.stream().map(s -> s.alert().container()),
            along.stream().map(a -> a.coming().of().container()))
        .distinct()
        .map(ContainerId::value)
        .toList();
  }

  private List<String> inFull(Situation situation, Instant now) {
    Alert alert = situation.alert();
    String topic = alert.kind().key();
    String unit = alert.kind().unit();
    List<String> lines = new ArrayList<>();
    lines.add(sentence(situation));
    lines.add("");
    Instant end = alert.returnedAt() == null ? now : alert.returnedAt();
    String length = Words.length(Duration.between(alert.since(), end));
    lines.add("Since      " + Words.when(alert.since(), zone) + ", " + length);
    if (alert.returnedAt() != null) {
      lines.add("Until      " + Words.when(alert.returnedAt(), zone));
    }
    String beyond = Words.beyond(topic);
    if (!beyond.isEmpty()) {
      lines.add("Limit      " + units.value(alert.limit(), unit));
      lines.add("Last value " + units.value(alert.latest(), unit));
      lines.add("At worst   " + worst(alert));
    }
    lines.add("Costs      " + cost(situation));
    if (alert.acknowledged()) {
      lines.add("Seen by    " + Words.oneLine(String.valueOf(alert.acknowledgedBy())));
    }
    return lines;
  }

  private String sentence(Situation situation) {
    Alert alert = situation.alert();
    String name = Words.oneLine(situation.containerName());
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
        + Words.beyond(alert.kind().key())
        + " the limit";
  }

  private String cost(Situation situation) {
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
    String length = Words.length(Duration.between(trouble.since(), end));
    lines.add(
        trouble.kind() == Trouble.Kind.CLOCK
            ? "Noticed    " + Words.when(trouble.since(), zone)
            : "Since      " + Words.when(trouble.since(), zone) + ", " + length);
    return lines;
  }

  private List<String> listed(List<Situation> situations, List<Trouble> troubles) {
    List<String> lines = new ArrayList<>();
    troubles.forEach(t -> lines.add(t.detail() + " (since " + Words.when(t.since(), zone) + ')'));
    situations.stream().limit(LISTED).forEach(situation -> lines.add(inShort(situation)));
    if (situations.size() > LISTED) {
      lines.add("and " + (situations.size() - LISTED) + " more, on the page.");
    }
    double lost =
        situations.stream()
            .map(Situation::degreeHoursLost)
            .filter(Objects::nonNull)
            .mapToDouble(Double::doubleValue)
            .sum();
    if (lost > 0) {
      lines.add("");
      lines.add("Costs so far: " + units.heat(lost) + " of heat lost, in all.");
    }
    return lines;
  }

  private List<String> listed(List<Along> along, int most) {
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

  private String inShort(Along along) {
    PendingAlert coming = along.coming();
    String unit = coming.of().kind().unit();
    String worst =
        Words.beyond(coming.topic()).isEmpty()
            ? ""
            : ", " + units.value(coming.worst(), unit) + " at worst";
    return "- "
        + Words.oneLine(along.containerName())
        + ": since "
        + Words.when(coming.since(), zone)
        + worst;
  }

  private String inShort(Situation situation) {
    Alert alert = situation.alert();
    String topic = alert.kind().key();
    String worst = Words.beyond(topic).isEmpty() ? "" : ", " + worst(alert);
    return "- "
        + Words.oneLine(situation.containerName())
        + ": "
        + Words.state(topic)
        + " since "
        + Words.when(alert.since(), zone)
        + worst
        + (alert.active() ? "" : "; it has returned")
        + (alert.acknowledged()
            ? "; seen by " + Words.oneLine(String.valueOf(alert.acknowledgedBy()))
            : "");
  }

  private static List<String> advice(
      List<Situation> situations, List<Along> along, List<Trouble> troubles, boolean one) {
    Map<String, Long> topics = new LinkedHashMap<>();
    situations.forEach(s -> topics.merge(s.alert().kind().key(), 1L, Long::sum));
    along.forEach(a -> topics.merge(a.coming().topic(), 1L, Long::sum));
    troubles.forEach(t -> topics.merge(t.kind().key(), 1L, Long::sum));
    List<String> lines = new ArrayList<>(List.of("", "What to do first"));
    if (topics.values().stream().anyMatch(count -> count >= ONE_CAUSE)) {
      lines.add("- So many at once have one cause: look at the power, the room, the network.");
    }
    topics.keySet().stream()
        .flatMap(topic -> Advice.of(topic).stream().limit(one ? 3 : 2))
        .distinct()
        .forEach(step -> lines.add("- " + step));
    return lines;
  }

  private @Nullable String link(
      List<Situation> situations, List<Along> along, List<Trouble> troubles) {
    if (publicUrl == null) {
      return null;
    }
    List<String> containers = containers(situations, along);
    return containers.size() == 1 && troubles.isEmpty()
        ? publicUrl + "/container.html?id=" + containers.get(0)
        : publicUrl + '/';
  }
}
