package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.Origin;
import tepidarium.reading.InvalidInput;

/** The table of seed lots; one row for each lot. */
final class LotTable {
  static final List<String> HEADER =
      List.of(
          "lot",
          "species",
          "name",
          "seeds",
          "gatheredAt",
          "from",
          "place",
          "kept",
          "remark",
          "accession");

  private LotTable() {}

  static List<@Nullable String> row(Lot lot) {
    LotDetails details = lot.details();
    return Arrays.asList(
        String.valueOf(lot.id()),
        details.species(),
        details.name(),
        String.valueOf(details.seeds()),
        details.gatheredAt().toString(),
        details.origin().name().toLowerCase(Locale.ROOT),
        details.place(),
        details.kept(),
        details.remark(),
        details.accession());
  }

  static Lot lot(Row row) {
    Integer seeds = row.count("seeds");
    if (seeds == null) {
      throw InvalidInput.missing("seeds");
    }
    return new Lot(
        row.number("lot"),
        new LotDetails(
            row.required("species"),
            row.text("name"),
            seeds,
            row.instant("gatheredAt"),
            Origin.ofKey(row.text("from")),
            row.text("place"),
            row.text("kept"),
            row.text("remark"),
            row.text("accession")));
  }
}
