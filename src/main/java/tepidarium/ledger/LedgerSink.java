package tepidarium.ledger;

import java.util.List;
import java.util.Map;
import tepidarium.container.ContainerId;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;
import tepidarium.series.ReadingSink;
import tepidarium.series.WriteResult;

/**
 * Writes readings so that the ledger stays right. One thread at a time, like the sink behind it.
 */
public final class LedgerSink implements ReadingSink {
  private final Ledger ledger;
  private final ReadingSink sink;

  public LedgerSink(Ledger ledger, ReadingSink sink) {
    this.ledger = ledger;
    this.sink = sink;
  }

  @Override
  public WriteResult write(List<Reading> batch) {
    Map<ContainerId, Span> touched = ledger.aboutToStore(batch);
    try {
      return sink.write(batch);
    } finally {
      ledger.stored(touched);
    }
  }
}
