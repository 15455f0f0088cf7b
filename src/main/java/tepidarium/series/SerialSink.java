package tepidarium.series;

import java.util.List;
import tepidarium.reading.Reading;

/** Lets several threads write to one sink, one at a time. Thread-safe. */
public final class SerialSink implements ReadingSink {
  private final ReadingSink sink;

  public SerialSink(ReadingSink sink) {
    this.sink = sink;
  }

  @Override
  public synchronized WriteResult write(List<Reading> batch) {
    return sink.write(batch);
  }
}
