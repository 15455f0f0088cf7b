package tepidarium.exchange;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Opening;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;

/** The table of openings; one row for each recorded opening, and for each declined one. */
final class OpeningTable {
  static final List<String> HEADER = List.of("container", "from", "until", "declined");

  /** An opening, or a suggested one that the grower declined. */
  record Line(Opening opening, boolean declined) {}

  private OpeningTable() {}

  static List<@Nullable String> row(Line line) {
    Opening opening = line.opening();
    return Arrays.asList(
        opening.container().value(),
        opening.span().from().toString(),
        opening.span().to().toString(),
        line.declined() ? "yes" : null);
  }

  static Line line(Row row) {
    Instant from = row.instant("from");
    Instant until = row.instant("until");
    if (until.isBefore(from)) {
      throw new InvalidInput("until", "must not be earlier than from", InputRule.ORDER.with());
    }
    String declined = row.text("declined");
    if (declined != null && !declined.equals("yes")) {
      throw new InvalidInput(
          "declined",
          "must be yes or empty, not \"" + declined + '"',
          InputRule.CHOICE.with(declined, List.of("yes")));
    }
    return new Line(
        new Opening(new ContainerId(row.required("container")), new Span(from, until)),
        declined != null);
  }
}
