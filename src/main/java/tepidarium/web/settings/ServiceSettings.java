package tepidarium.web.settings;

import com.fasterxml.jackson.annotation.JsonValue;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.Notifier;

/** Provides the API with the settings of the service, and changes those that a page may change. */
public interface ServiceSettings {
  /** What a setting holds. */
  enum Kind {
    WHOLE,
    NUMBER,
    TEXT,
    CHOICE,
    /** Several values; changed in the settings file only. */
    LIST;

    /** Its name in the API. */
    @JsonValue
    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One setting.
   *
   * @param name its name, with dots between section and setting
   * @param choices the words that it accepts; empty if it has another kind
   * @param place where it is set: {@code default}, {@code page}, {@code file}, {@code environment},
   *     {@code command-line}
   * @param placeName the settings file, the environment variable; null for other places
   * @param set whether it has a value other than its default
   * @param value that value; null if it is not set, or secret
   * @param changeable whether a page may change it now
   * @param fileOnly whether no page may ever change it
   * @param atOnce whether a change has its effect at once, and not only after the next start
   * @param waiting whether its change waits for the next start
   */
  record Setting(
      String name,
      Kind kind,
      List<String> choices,
      String place,
      @Nullable String placeName,
      boolean set,
      @Nullable JsonNode value,
      boolean secret,
      boolean changeable,
      boolean fileOnly,
      boolean atOnce,
      boolean waiting) {}

  /** The outcome of a test notice over one channel. */
  record Trial(Notifier notifier, DeliveryOutcome outcome) {}

  /** Where the page saves settings: a file in the data folder. */
  String file();

  /** Every setting, in the order of the documentation. */
  List<Setting> all();

  /**
   * Changes settings, and saves them. Nothing changes if one of them is wrong.
   *
   * @param changes new values by name; null takes the value away, so that the default counts again
   * @throws tepidarium.reading.InvalidInput if a setting is wrong, or may not be changed here
   */
  void change(Map<String, @Nullable JsonNode> changes);

  /**
   * Sends a test notice over the channels that changed settings would give, without saving them.
   * Waits for the outcomes, at most about one minute for each channel.
   *
   * @param changes as for {@link #change}; only channels of their sections are tried
   * @throws tepidarium.reading.InvalidInput if a setting is wrong, or may not be changed here
   */
  List<Trial> tryNotices(Map<String, @Nullable JsonNode> changes);
}
