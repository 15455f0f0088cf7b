package tepidarium.germination;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/**
 * The details of a seed lot, entered by the grower.
 *
 * @param species id of the species profile
 * @param seeds number of seeds gathered
 * @param gatheredAt time of gathering, in whole milliseconds
 * @param place plant or place, in the grower's words
 * @param kept storage conditions, in the grower's words
 * @param accession number in the register of a seed bank, at most 60 characters; null for none
 * @throws InvalidInput if a value is invalid; the message names it
 */
public record LotDetails(
    String species,
    @Nullable String name,
    int seeds,
    Instant gatheredAt,
    Origin origin,
    @Nullable String place,
    @Nullable String kept,
    @Nullable String remark,
    @Nullable String accession) {
  public LotDetails {
    Require.count("seeds", seeds, 1);
    name = Require.note("name", name, 60);
    place = Require.note("place", place, 120);
    kept = Require.note("kept", kept, 120);
    remark = Require.note("remark", remark, 2_000);
    accession = Require.note("accession", accession, 60);
    gatheredAt = gatheredAt.truncatedTo(ChronoUnit.MILLIS);
  }
}
