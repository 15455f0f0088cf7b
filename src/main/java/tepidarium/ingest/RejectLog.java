package tepidarium.ingest;

import java.util.List;

/** Stores a limited number of rejects. Each write is durable when the method returns. */
public interface RejectLog {
  /** A stored line with its serial number. */
  record Line(long number, Reject reject) {}

  void add(List<Reject> rejects);

  /** The newest lines, newest first. */
  List<Line> newest(int limit);
}
