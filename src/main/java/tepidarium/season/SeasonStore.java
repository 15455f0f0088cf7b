package tepidarium.season;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;

/** Stores season reports. Each method is one transaction; the data are on disk when it returns. */
public interface SeasonStore {
  /** A request to store a season report. */
  record Asked(String name, Span span, Instant at, @Nullable String remark, String report) {
    private static final int LONGEST_NAME = 60;
    private static final int LONGEST_REMARK = 2_000;

    public Asked {
      name = name.strip();
      if (name.isEmpty() || name.length() > LONGEST_NAME) {
        throw new InvalidInput("name", "must have 1 to " + LONGEST_NAME + " characters");
      }
      remark = remark == null || remark.isBlank() ? null : remark.strip();
      if (remark != null && remark.length() > LONGEST_REMARK) {
        throw new InvalidInput("remark", "must have at most " + LONGEST_REMARK + " characters");
      }
      if ((name + (remark == null ? "" : remark.replace("\n", "")))
          .chars()
          .anyMatch(Character::isISOControl)) {
        throw new InvalidInput("name or remark has characters that cannot be shown");
      }
    }
  }

  /** All stored seasons, the one that ended last first. */
  List<KeptSeason> seasons();

  Optional<KeptSeason> season(long id);

  /** Stores a season; empty if there is already one with this name, ignoring case. */
  Optional<KeptSeason> keep(Asked asked);

  /** Removes a season; false if there is none with this number. */
  boolean remove(long id);
}
