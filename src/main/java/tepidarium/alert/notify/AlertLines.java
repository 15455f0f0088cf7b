package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;

/** Writes one alert, pending alert or trouble for a notice: in full, or in one line of a list. */
final class AlertLines {
  private final Units units;
  private final NoticeFormat format;
  private final NoticeWords words;

  AlertLines(Units units, NoticeFormat format) {
    this.units = units;
    this.format = format;
    this.words = format.words();
  }

  List<String> inFull(AlertDetails details, Instant now) {
    Alert alert = details.alert();
    String topic = alert.kind().key();
    String unit = alert.kind().unit();
    List<String> lines = new ArrayList<>();
    lines.add(sentence(details));
    lines.add("");
    Instant end = alert.returnedAt() == null ? now : alert.returnedAt();
    String length = format.length(Duration.between(alert.since(), end));
    lines.add(row("label.since", format.when(alert.since()) + ", " + length));
    if (alert.returnedAt() != null) {
      lines.add(row("label.until", format.when(alert.returnedAt())));
    }
    if (!format.beyond(topic).isEmpty()) {
      lines.add(row("label.limit", units.value(alert.limit(), unit)));
      lines.add(row("label.latest", units.value(alert.latest(), unit)));
      lines.add(row("label.worst", worst(alert)));
    }
    lines.add(row("label.cost", cost(details)));
    if (alert.acknowledged()) {
      lines.add(row("label.seenBy", NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy()))));
    }
    return lines;
  }

  /** A label and its value, in columns. The label of the last value is the longest one. */
  private String row(String label, String value) {
    int width = words.say("label.latest").length();
    return String.format("%-" + width + "s %s", words.say(label), value);
  }

  private String sentence(AlertDetails details) {
    Alert alert = details.alert();
    String unit = alert.kind().unit();
    Object[] values = {
      NoticeFormat.oneLine(details.containerName()),
      format.when(alert.since()),
      units.value(alert.limit(), unit),
      units.value(alert.worst(), unit),
      tail(alert)
    };
    return words.say((alert.active() ? "now." : "was.") + alert.kind().key(), values);
  }

  /** What the signs of a fault are, or when a limit will be crossed. */
  private String tail(Alert alert) {
    if (alert.kind() == AlertKind.FAULTY) {
      return alert.detail() == null ? "" : words.say("tail.faulty", alert.detail());
    }
    return alert.forecastAt() == null
        ? ""
        : words.say("tail.forecast", format.when(alert.forecastAt()));
  }

  private String worst(Alert alert) {
    String unit = alert.kind().unit();
    return words.say(
        "worst",
        units.value(alert.worst(), unit),
        units.distance(Math.abs(alert.worst() - alert.limit()), unit),
        format.beyond(alert.kind().key()));
  }

  private String cost(AlertDetails details) {
    Double lost = details.degreeHoursLost();
    if (lost != null) {
      return words.say("lost", units.heat(lost));
    }
    return switch (details.alert().kind()) {
      case COLD -> words.say("cost.cold");
      case DRY -> words.say("cost.dry");
      case LIGHT -> words.say("cost.light");
      case HOT -> words.say("cost.hot");
      case SILENT, FAULTY -> words.say("cost.unreliable");
      default -> words.say("cost.none");
    };
  }

  List<String> inFull(Trouble trouble, Instant now) {
    Instant end = trouble.endedAt() == null ? now : trouble.endedAt();
    List<String> lines = new ArrayList<>(List.of(format.sentence(trouble), ""));
    String since = format.when(trouble.since());
    lines.add(
        trouble.kind() == Trouble.Kind.CLOCK
            ? row("label.noticed", since)
            : row(
                "label.since",
                since + ", " + format.length(Duration.between(trouble.since(), end))));
    return lines;
  }

  String inShort(NoticeText.NamedPendingAlert named) {
    PendingAlert pending = named.pending();
    String name = NoticeFormat.oneLine(named.containerName());
    String since = format.when(pending.since());
    return format.beyond(pending.topic()).isEmpty()
        ? words.say("pendingLine", name, since)
        : words.say(
            "pendingLineWorst",
            name,
            since,
            units.value(pending.worst(), pending.of().kind().unit()));
  }

  String inShort(AlertDetails details) {
    Alert alert = details.alert();
    String topic = alert.kind().key();
    return words.say(
        "line",
        NoticeFormat.oneLine(details.containerName()),
        format.state(topic),
        format.when(alert.since()),
        format.beyond(topic).isEmpty() ? "" : ", " + worst(alert),
        alert.active() ? "" : words.say("normalAgain"),
        alert.acknowledged()
            ? words.say("seenBy", NoticeFormat.oneLine(String.valueOf(alert.acknowledgedBy())))
            : "");
  }
}
