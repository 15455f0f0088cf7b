package tepidarium.ingest;

import java.util.ArrayList;
import java.util.List;
import tepidarium.reading.Reading;

/**
 * The readings that a mapping rule would give of one message, and the problems with it. Both may be
 * present: a bad value leaves the others valid.
 */
public record MappingTrial(List<Reading> readings, List<String> problems) {
  public MappingTrial {
    readings = List.copyOf(readings);
    problems = List.copyOf(problems);
  }

  static MappingTrial refused(String problem) {
    return new MappingTrial(List.of(), List.of(problem));
  }

  /** Collects the parts of the message. */
  static final class Parts implements Decoder.Parts {
    private final List<Reading> readings = new ArrayList<>();
    private final List<String> problems = new ArrayList<>();

    @Override
    public void take(Decoded part, boolean last) {
      readings.addAll(part.readings());
      part.rejects().forEach(reject -> problems.add(reject.reason()));
    }

    MappingTrial trial() {
      return new MappingTrial(readings, problems);
    }
  }
}
