package tepidarium.heat;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.PlaceTrial.TrialEstimate;

/** Formats the result of a trial as text for the grower. */
public final class TrialWords {
  private TrialWords() {}

  /** The result of a trial, or the reason why it has none. */
  public static String of(PlaceTrial trial) {
    return switch (trial.outcome()) {
      case DETERMINED -> determined(trial);
      case TOO_SHORT ->
          format(
              "The trial is too short: place and room were measured "
                  + "together for %.1f hours. At least 12 hours are needed, "
                  + "better two days. Check that a sensor is placed in the room.",
              trial.coveredHours());
      case ROOM_TOO_STEADY ->
          format(
              "The room was too steady, between %.1f and %.1f °C, to "
                  + "show how the place follows it. Repeat the trial over "
                  + "colder nights, or let the room cool for some hours.",
              trial.roomMinC(), trial.roomMaxC());
      case HARDLY_FOLLOWS ->
          format(
              "The room changed from %.1f to %.1f °C, the place only from %.1f to %.1f °C. Either"
                  + " something regulates it, or it warms and cools slowly: the trial is too short"
                  + " to tell which. Go on for some days more.",
              trial.roomMinC(), trial.roomMaxC(), trial.insideMinC(), trial.insideMaxC());
      case UNCLEAR ->
          format(
              "The room changed enough (%.1f to %.1f °C), but the place changed for other reasons"
                  + " too: an opened lid, the sun, or a heater that switches. Leave it closed and"
                  + " shaded for two days. If its heater switches, let the sensor report every"
                  + " minute.",
              trial.roomMinC(), trial.roomMaxC());
      case REGULATED ->
          format(
              "Something regulates this place: it follows the room (%.1f to %.1f "
                  + "°C) less than with an unregulated heater. The lowest room temperature "
                  + "for it is not known, because the heater never reached its limit.",
              trial.roomMinC(), trial.roomMaxC());
      case NO_FIT ->
          "The temperatures do not fit a heated place in this room. "
              + "Check whether the sun reaches it or whether it was opened.";
    };
  }

  private static String determined(PlaceTrial trial) {
    PlaceTrial.Low low = trial.low();
    if (low == null) {
      throw new IllegalStateException("a determined trial must have a limit");
    }
    TrialEstimate room = low.roomC();
    String first =
        format(
            "This place falls below %s °C when the room stays below %.1f °C (95 %%: %.1f to %.1f;"
                + " the sensors may add ±%.1f).",
            plain(low.limitC()), room.value(), room.low(), room.high(), trial.sensorErrorC());
    return first + fall(low.hoursToFall()) + failure(low.hoursWithoutHeat(), low);
  }

  private static String fall(@Nullable TrialEstimate hours) {
    return hours == null
        ? " Its mean in the trial was already below that."
        : format(
            " In a room another %s °C colder, this takes %.1f hours (%.1f to %.1f).",
            plain(PlaceTrial.COLDER_C), hours.value(), hours.low(), hours.high());
  }

  private static String failure(@Nullable TrialEstimate hours, PlaceTrial.Low low) {
    return hours == null
        ? ""
        : format(
            " If the heat fails at the mean room temperature of the "
                + "trial, it falls below %s °C after %.1f hours (%.1f to %.1f).",
            plain(low.limitC()), hours.value(), hours.low(), hours.high());
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? format("%.0f", value) : format("%.1f", value);
  }

  private static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
