package tepidarium.app;

import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.IngestCounters;
import tepidarium.live.Watch;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSource;
import tepidarium.series.RefusedReading;
import tepidarium.series.WriteResult;
import tepidarium.series.spool.Spool;

/**
 * Counts the readings that the spool forwards to the store, logs those that the store refuses, and
 * has the watch judge the others. Called on the spool's thread.
 */
final class SpoolListener implements Spool.Listener {
  private static final Logger LOG = LoggerFactory.getLogger(SpoolListener.class);

  private final String place;
  private final ReadingSource source;
  private final IngestCounters counters;
  private final Watch watch;

  /**
   * Creates the listener.
   *
   * @param place name of the store, for the log
   * @param source reads from the store
   */
  SpoolListener(String place, ReadingSource source, IngestCounters counters, Watch watch) {
    this.place = place;
    this.source = source;
    this.counters = counters;
    this.watch = watch;
  }

  @Override
  public void reached() {
    watch.learn(source.summaries());
    LOG.info("{} answers", place);
  }

  @Override
  public void refused(List<RefusedReading> refused) {
    counters.log(List.of(), refused);
  }

  @Override
  public void forwarded(List<Reading> readings, WriteResult result) {
    counters.settled(readings.size(), result);
    watch.readable(readings.stream().filter(reading -> !reading.uncertain()).toList());
  }
}
