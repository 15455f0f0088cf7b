package tepidarium.ingest;

import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * Readings and rejects of one message, or of a part of it. Both may hold something: a message with
 * one bad quantity still gives its good ones. Both are empty only for the service's own topics and
 * for a button that was pressed.
 *
 * @param refused number of things rejected; may exceed the rejects, as a message has at most 20
 * @param press a button beside a container was pressed; null for all other messages
 */
public record Decoded(
    List<Reading> readings, List<Reject> rejects, int refused, @Nullable ButtonPress press) {
  public Decoded(List<Reading> readings, List<Reject> rejects) {
    this(readings, rejects, rejects.size(), null);
  }

  public Decoded {
    readings = List.copyOf(readings);
    rejects = List.copyOf(rejects);
  }

  /** The same with each reading replaced. */
  Decoded with(UnaryOperator<Reading> replaced) {
    return readings.isEmpty()
        ? this
        : new Decoded(readings.stream().map(replaced).toList(), rejects, refused, press);
  }
}
