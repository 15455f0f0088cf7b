package tepidarium.web.alerts;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertText;
import tepidarium.alert.Trend;

/** The JSON form of an alert in the API and in MQTT messages. */
public record AlertJson(
    long id,
    String container,
    String containerName,
    String kind,
    String priority,
    String state,
    boolean acknowledged,
    @Nullable Instant acknowledgedAt,
    @Nullable String acknowledgedBy,
    @Nullable Instant shelvedUntil,
    @Nullable String shelvedBy,
    Instant since,
    Instant raisedAt,
    @Nullable Instant returnedAt,
    double limit,
    double value,
    double worst,
    String unit,
    @Nullable String detail,
    List<AlertReasonJson> reasons,
    @Nullable Trend trend,
    @Nullable Instant forecastAt,
    boolean foundLate,
    String message) {

  /** Creates the JSON form, with the current name of the container. */
  public static AlertJson of(Alert alert, String containerName, ZoneId zone) {
    return new AlertJson(
        alert.id(),
        alert.container().value(),
        containerName,
        alert.kind().key(),
        alert.priority().key(),
        alert.active() ? "active" : "returned",
        alert.acknowledged(),
        alert.acknowledgedAt(),
        alert.acknowledgedBy(),
        alert.shelvedUntil(),
        alert.shelvedBy(),
        alert.since(),
        alert.raisedAt(),
        alert.returnedAt(),
        alert.limit(),
        alert.latest(),
        alert.worst(),
        alert.kind().unit(),
        alert.detail(),
        AlertReasonJson.of(alert.reasons()),
        alert.trend(),
        alert.forecastAt(),
        alert.foundLate(),
        AlertText.of(alert, containerName, zone));
  }
}
