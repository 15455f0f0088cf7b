package tepidarium.web.history;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.history.Downsampled;

/** The JSON form of a downsampled series, in columns; a gap is an instant with null values. */
record SeriesJson(
    List<Instant> at,
    List<@Nullable Double> min,
    List<@Nullable Double> max,
    List<@Nullable Double> mean) {

  static SeriesJson of(List<Downsampled.Point> points) {
    List<Instant> at = new ArrayList<>(points.size());
    List<@Nullable Double> min = new ArrayList<>(points.size());
    List<@Nullable Double> max = new ArrayList<>(points.size());
    List<@Nullable Double> mean = new ArrayList<>(points.size());
    for (Downsampled.Point point : points) {
      at.add(Instant.ofEpochMilli(point.atMs()));
      min.add(point.known() ? point.min() : null);
      max.add(point.known() ? point.max() : null);
      mean.add(point.known() ? point.mean() : null);
    }
    return new SeriesJson(at, min, max, mean);
  }
}
