package tepidarium.alert.notify;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.Priority;

/** Writes the text of the daily summary: the verdict first, then the figures. */
final class SummaryText {
  /** Maximum number of batteries listed one by one. */
  private static final int LISTED = 20;

  private SummaryText() {}

  /**
   * Writes the summary.
   *
   * @param publicUrl address of the pages, without a slash at its end; null for no link
   */
  static Notice of(
      DailySummary facts,
      List<Alert> activeAlerts,
      List<Trouble> activeTroubles,
      @Nullable String publicUrl,
      Instant now) {
    String verdict = verdict(facts, activeAlerts, activeTroubles);
    List<String> lines = new ArrayList<>();
    lines.add(verdict.substring(0, 1).toUpperCase(Locale.ROOT) + verdict.substring(1) + '.');
    lines.add("");
    lines.add(
        NoticeFormat.counted(facts.containers(), "container")
            + ", "
            + NoticeFormat.counted(facts.sensors(), "sensor")
            + " heard within the last 24 hours.");
    if (!facts.disk().isEmpty()) {
      lines.add("Disk: " + facts.disk() + '.');
    }
    activeTroubles.forEach(trouble -> lines.add(trouble.detail()));
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
  private static String verdict(DailySummary facts, List<Alert> alerts, List<Trouble> troubles) {
    List<String> problems = new ArrayList<>();
    if (!alerts.isEmpty()) {
      Stream<String> kinds = alerts.stream().map(alert -> alert.kind().key());
      problems.add(
          NoticeFormat.counted(alerts.size(), "active alert")
              + ": "
              + NoticeFormat.countsByState(kinds));
    }
    troubles.forEach(trouble -> problems.add(NoticeFormat.state(trouble.kind().key())));
    int batteries = facts.batteries().size();
    if (batteries > 0) {
      problems.add(NoticeFormat.counted(batteries, "battery", "batteries") + " low");
    }
    return problems.isEmpty() ? "all in order" : String.join("; ", problems);
  }

  private static List<String> batteries(List<DailySummary.LowBattery> batteries) {
    if (batteries.isEmpty()) {
      return List.of();
    }
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add("Batteries that may be empty within 30 days:");
    lines.addAll(NoticeFormat.listed(batteries, LISTED, SummaryText::inShort));
    return lines;
  }

  private static String inShort(DailySummary.LowBattery battery) {
    int days = (int) Math.round(battery.days());
    return "- "
        + NoticeFormat.oneLine(battery.sensor())
        + (days == 0 ? ": now" : ": in about " + NoticeFormat.counted(days, "day"));
  }
}
