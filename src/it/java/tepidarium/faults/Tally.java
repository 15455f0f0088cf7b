package tepidarium.faults;

import com.fasterxml.jackson.databind.JsonNode;
import tepidarium.it.Grower;

/** What the service says became of what came in. */
record Tally(long received, long stored, long repeated, long rejected, long waiting) {
  static final Tally NOTHING = new Tally(0, 0, 0, 0, 0);

  static Tally of(Grower grower) {
    JsonNode counts = grower.api().get("/api/health").get("counts");
    return new Tally(
        counts.get("received").longValue(),
        counts.get("stored").longValue(),
        counts.get("repeated").longValue(),
        counts.get("rejected").longValue(),
        counts.get("waiting").longValue());
  }

  /** What had come to its end when the service was killed; the rest comes again. */
  Tally settled() {
    return new Tally(received - waiting, stored, repeated, rejected, 0);
  }

  Tally plus(Tally more) {
    return new Tally(
        received + more.received,
        stored + more.stored,
        repeated + more.repeated,
        rejected + more.rejected,
        waiting + more.waiting);
  }

  boolean addsUp() {
    return waiting == 0 && received == stored + repeated + rejected;
  }
}
