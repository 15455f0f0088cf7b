package tepidarium.ingest;

import java.util.List;
import tepidarium.reading.Reading;

/**
 * What one message gave. Both lists may hold something: a message with one bad quantity still gives
 * its good ones. Both are empty only for the service's own topics.
 */
public record Decoded(List<Reading> readings, List<Reject> rejects) {
  public Decoded {
    readings = List.copyOf(readings);
    rejects = List.copyOf(rejects);
  }
}
