package tepidarium.alert.notify;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.Priority;

/** Writes the text of the daily summary: the verdict first, then the figures. */
final class SummaryText {
  /** Maximum number of batteries listed one by one. */
  private static final int LISTED = 20;

  private final NoticeWords words;
  private final NoticeFormat format;

  SummaryText(NoticeFormat format) {
    this.words = format.words();
    this.format = format;
  }

  /**
   * Writes the summary.
   *
   * @param publicUrl address of the pages, without a slash at its end; null for no link
   */
  Notice of(
      DailySummary facts,
      List<Alert> activeAlerts,
      List<Trouble> activeTroubles,
      @Nullable String publicUrl,
      Instant now) {
    String verdict = verdict(facts, activeAlerts, activeTroubles);
    List<String> lines = new ArrayList<>();
    lines.add(verdict.substring(0, 1).toUpperCase(words.locale()) + verdict.substring(1) + '.');
    lines.add("");
    lines.add(words.say("summary.heard", facts.containers(), facts.sensors()));
    if (!facts.disk().isEmpty()) {
      lines.add(words.say("summary.disk", facts.disk()));
    }
    activeTroubles.forEach(trouble -> lines.add(format.sentence(trouble)));
    lines.addAll(batteries(facts.batteries()));
    String link = publicUrl == null ? null : publicUrl + '/';
    if (link != null) {
      lines.add("");
      lines.add(link);
    }
    return new Notice(
        0,
        NoticeKind.SUMMARY,
        Priority.LOW,
        now,
        "Tepidarium: " + verdict,
        String.join("\n", lines) + '\n',
        link,
        List.of());
  }

  /** Such as "2 active alerts: 2 too cold; disk filling". */
  private String verdict(DailySummary facts, List<Alert> alerts, List<Trouble> troubles) {
    List<String> problems = new ArrayList<>();
    if (!alerts.isEmpty()) {
      Stream<String> kinds = alerts.stream().map(alert -> alert.kind().key());
      problems.add(words.say("summary.alerts", alerts.size(), format.countsByState(kinds)));
    }
    troubles.forEach(trouble -> problems.add(format.state(trouble.kind().key())));
    int batteries = facts.batteries().size();
    if (batteries > 0) {
      problems.add(words.say("summary.batteries", batteries));
    }
    return problems.isEmpty() ? words.say("summary.fine") : String.join("; ", problems);
  }

  private List<String> batteries(List<DailySummary.LowBattery> batteries) {
    if (batteries.isEmpty()) {
      return List.of();
    }
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add(words.say("summary.lowBatteries"));
    lines.addAll(format.listed(batteries, LISTED, this::inShort));
    return lines;
  }

  private String inShort(DailySummary.LowBattery battery) {
    int days = (int) Math.round(battery.days());
    String sensor = NoticeFormat.oneLine(battery.sensor());
    return days == 0
        ? words.say("summary.batteryNow", sensor)
        : words.say("summary.batteryDays", sensor, days);
  }
}
