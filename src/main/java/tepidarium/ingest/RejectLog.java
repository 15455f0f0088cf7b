package tepidarium.ingest;

import java.util.List;

/** Keeps what could not be read, bounded. What was added has reached the disk. */
public interface RejectLog {
  /** A kept line with its running number. */
  record Line(long number, Reject reject) {}

  void add(List<Reject> rejects);

  /** The newest lines, newest first. */
  List<Line> newest(int most);
}
