package tepidarium.germination;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/**
 * What a grower says of a seed lot.
 *
 * @param species id of its profile
 * @param seeds how many were gathered
 * @param gatheredAt whole milliseconds
 * @param place which plant or place, in the grower's words
 * @param kept how it is kept, in the grower's words
 * @throws InvalidInput naming what makes no sense
 */
public record LotDetails(
    String species,
    @Nullable String name,
    int seeds,
    Instant gatheredAt,
    Origin origin,
    @Nullable String place,
    @Nullable String kept,
    @Nullable String remark) {
  public LotDetails {
    Require.count("seeds", seeds, 1);
    name = Require.note("name", name, 60);
    place = Require.note("place", place, 120);
    kept = Require.note("kept", kept, 120);
    remark = Require.note("remark", remark, 2_000);
    gatheredAt = gatheredAt.truncatedTo(ChronoUnit.MILLIS);
  }
}
