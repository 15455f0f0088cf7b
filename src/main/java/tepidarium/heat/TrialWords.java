package tepidarium.heat;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.PlaceTrial.Figure;

/** A trial in plain words. */
public final class TrialWords {
  private TrialWords() {}

  /** What the place can do, or why these hours do not tell. */
  public static String of(PlaceTrial trial) {
    return switch (trial.outcome()) {
      case DETERMINED -> told(trial);
      case TOO_SHORT ->
          format(
              "It cannot be told from these hours: place and room were measured together for %.1f"
                  + " hours, and half a day is the least, two days are good. Is a sensor placed in"
                  + " the room?",
              trial.coveredHours());
      case ROOM_TOO_STEADY ->
          format(
              "It cannot be told from these hours how cold a room this place can bear: the room"
                  + " stayed between %.1f and %.1f °C, too steady to see how the place follows it."
                  + " Try again over colder nights, or let the room cool for some hours.",
              trial.roomMinC(), trial.roomMaxC());
      case REGULATED ->
          format(
              "Something regulates this place: it follows the room (%.1f to %.1f °C) less than a"
                  + " plain heater would. How cold a room it can bear cannot be told from these"
                  + " hours, since the heater was never at its limit.",
              trial.roomMinC(), trial.roomMaxC());
      case NO_FIT ->
          "It cannot be told from these hours: the place does not follow the room as a warmed body"
              + " would. Does the sun reach it, or was it opened?";
    };
  }

  private static String told(PlaceTrial trial) {
    PlaceTrial.Low low = trial.low();
    if (low == null) {
      throw new IllegalStateException("a trial that tells has a limit");
    }
    Figure room = low.roomC();
    String first =
        format(
            "This place falls below %s °C when the room stays below %.1f °C (95 %%: %.1f to %.1f;"
                + " the sensors may add ±%.1f).",
            plain(low.limitC()), room.value(), room.low(), room.high(), trial.sensorErrorC());
    return first + fall(low.hoursToFall()) + failure(low.hoursWithoutHeat(), low);
  }

  private static String fall(@Nullable Figure hours) {
    return hours == null
        ? " On the average of the trial it was below that already."
        : format(
            " In a room %s °C colder still, that takes %.1f hours (%.1f to %.1f).",
            plain(PlaceTrial.COLDER_C), hours.value(), hours.low(), hours.high());
  }

  private static String failure(@Nullable Figure hours, PlaceTrial.Low low) {
    return hours == null
        ? ""
        : format(
            " If the heat fails in the room as it was, it falls below %s °C after %.1f hours (%.1f"
                + " to %.1f).",
            plain(low.limitC()), hours.value(), hours.low(), hours.high());
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? format("%.0f", value) : format("%.1f", value);
  }

  private static String format(String words, Object... values) {
    return String.format(Locale.ROOT, words, values);
  }
}
