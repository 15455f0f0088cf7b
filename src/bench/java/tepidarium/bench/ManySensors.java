package tepidarium.bench;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/**
 * More and more sensors, each with a connection of its own to the embedded broker and ten to a
 * container: rate and memory of the service, broker included.
 */
final class ManySensors {
  private static final int IN_EACH = 10;
  private static final int BURST = 50;

  private final Path folder;
  private final List<Integer> counts;
  private final int readings;

  ManySensors(Path folder, List<Integer> counts, int readings) {
    this.folder = folder;
    this.counts = counts;
    this.readings = readings;
  }

  void run(Report report) {
    double fewest = 0;
    for (int count : counts) {
      Site site = Site.fresh(folder.resolve("sensors"));
      site.plant(count / IN_EACH, IN_EACH);
      int port = Ports.free();
      String heap = count > 1_000 ? Site.LARGE : Site.SMALL;
      Map<String, String> limits = Map.of("TEPIDARIUM_MAX_SENSORS", Integer.toString(2 * count));
      try (ServiceProcess service = site.start(port, Site.EMBEDDED, heap, limits);
          Load load = new Load(port, count, count)) {
        int each = Math.max(2, readings / count);
        load.send(each, BURST);
        EndToEnd.awaitStored(service.grower(), (long) each * count);
        long start = System.nanoTime();
        load.send(each, BURST);
        EndToEnd.awaitStored(service.grower(), 2L * each * count);
        double rate = (double) each * count / Wait.secondsSince(start);
        fewest = fewest == 0 ? rate : fewest;
        report.ratio(
            String.format(Locale.ROOT, "%,d sensors, each connected", count),
            "",
            " readings/s",
            rate,
            "with " + counts.get(0),
            fewest);
        report.figure(
            String.format(Locale.ROOT, "%,d sensors, each connected (%s)", count, heap),
            count > 1_000 ? "512 MB" : "256 MB",
            "at most "
                + Report.figure(new ProcessFigures(service.pid()).peakMegabytes())
                + " MiB resident");
      }
    }
  }
}
