package tepidarium.ingest;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * What one message gave. Both lists may hold something: a message with one bad quantity still gives
 * its good ones. Both are empty only for the service's own topics and for a button that was
 * pressed.
 *
 * @param press a button beside a container was pressed; null for all other messages
 */
public record Decoded(List<Reading> readings, List<Reject> rejects, @Nullable ButtonPress press) {
  public Decoded(List<Reading> readings, List<Reject> rejects) {
    this(readings, rejects, null);
  }

  public Decoded {
    readings = List.copyOf(readings);
    rejects = List.copyOf(rejects);
  }
}
