package tepidarium.web.system;

import java.util.List;
import java.util.Map;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.ingest.IntakeCounts;

/** Writes the metrics of the service in the OpenMetrics text format. */
final class Metrics {
  private Metrics() {}

  static String text(
      IntakeCounts counts, Map<String, ServiceInfo.Part> parts, List<Alert> openAlerts) {
    StringBuilder text = new StringBuilder();
    counter(text, "received", "Readings decoded and lines refused.", counts.received());
    counter(text, "stored", "Readings that added something to the record.", counts.stored());
    counter(text, "repeated", "Readings that were there already.", counts.repeated());
    counter(text, "rejected", "Lines in the reject log.", counts.rejected());
    gauge(text, "waiting", "Readings not yet durable, or kept on this disk for the store.");
    text.append("tepidarium_waiting ").append(counts.waiting()).append('\n');
    gauge(text, "part_up", "Whether a part works.");
    parts.forEach(
        (name, part) ->
            text.append("tepidarium_part_up{part=\"")
                .append(name)
                .append("\"} ")
                .append(part.isUp() ? 1 : 0)
                .append('\n'));
    gauge(text, "alerts_active", "Active alerts.");
    for (AlertKind kind : AlertKind.values()) {
      long active =
          openAlerts.stream().filter(alert -> alert.kind() == kind && alert.active()).count();
      text.append("tepidarium_alerts_active{kind=\"")
          .append(kind.key())
          .append("\"} ")
          .append(active)
          .append('\n');
    }
    return text.append("# EOF\n").toString();
  }

  private static void counter(StringBuilder text, String name, String help, long value) {
    String full = "tepidarium_readings_" + name;
    text.append("# TYPE ").append(full).append(" counter\n");
    text.append("# HELP ").append(full).append(' ').append(help).append('\n');
    text.append(full).append("_total ").append(value).append('\n');
  }

  private static void gauge(StringBuilder text, String name, String help) {
    text.append("# TYPE tepidarium_").append(name).append(" gauge\n");
    text.append("# HELP tepidarium_").append(name).append(' ').append(help).append('\n');
  }
}
