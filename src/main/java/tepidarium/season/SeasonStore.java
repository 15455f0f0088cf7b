package tepidarium.season;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Checks;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;

/** Stores season reports. Each method is one transaction; the data are on disk when it returns. */
public interface SeasonStore {
  /** A season report that is to be stored. */
  record NewSeason(String name, Span span, Instant at, @Nullable String remark, String report) {
    private static final int MAX_NAME_LENGTH = 60;
    private static final int MAX_REMARK_LENGTH = 2_000;

    public NewSeason {
      name = name.strip();
      if (name.isEmpty() || name.length() > MAX_NAME_LENGTH) {
        throw InvalidInput.length("name", MAX_NAME_LENGTH);
      }
      remark = remark == null || remark.isBlank() ? null : remark.strip();
      if (remark != null && remark.length() > MAX_REMARK_LENGTH) {
        throw InvalidInput.tooLong("remark", MAX_REMARK_LENGTH);
      }
      Checks.noControls("name", name);
      if (remark != null) {
        Checks.noControls("remark", remark.replace("\n", ""));
      }
    }
  }

  /** All stored seasons, the one that ended last first. */
  List<StoredSeason> seasons();

  Optional<StoredSeason> season(long id);

  /** Stores a season; empty if there is already one with this name, ignoring case. */
  Optional<StoredSeason> add(NewSeason season);

  /** Deletes a season; false if there is none with this number. */
  boolean remove(long id);
}
