package tepidarium.web.system;

import io.prometheus.metrics.expositionformats.OpenMetricsTextFormatWriter;
import io.prometheus.metrics.model.snapshots.CounterSnapshot;
import io.prometheus.metrics.model.snapshots.CounterSnapshot.CounterDataPointSnapshot;
import io.prometheus.metrics.model.snapshots.GaugeSnapshot;
import io.prometheus.metrics.model.snapshots.GaugeSnapshot.GaugeDataPointSnapshot;
import io.prometheus.metrics.model.snapshots.InfoSnapshot;
import io.prometheus.metrics.model.snapshots.InfoSnapshot.InfoDataPointSnapshot;
import io.prometheus.metrics.model.snapshots.Labels;
import io.prometheus.metrics.model.snapshots.MetricSnapshot;
import io.prometheus.metrics.model.snapshots.MetricSnapshots;
import io.prometheus.metrics.model.snapshots.Unit;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.RuntimeMXBean;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.ingest.IntakeCounts;

/**
 * Writes the metrics of the service in the OpenMetrics text format, with names and units by its
 * conventions.
 */
final class Metrics {
  private final List<MetricSnapshot> all = new ArrayList<>();

  private Metrics() {}

  static String text(ServiceInfo info, List<Alert> openAlerts) {
    Metrics metrics = new Metrics();
    metrics.addReadings(info.counts());
    metrics.addParts(info.parts());
    metrics.addAlerts(openAlerts);
    metrics.addDisk(info.disk());
    metrics.addProcess(info.version());
    return metrics.text();
  }

  private void addReadings(IntakeCounts counts) {
    counter("readings_received", "Readings decoded and lines refused.", counts.received());
    counter("readings_stored", "Readings that added something to the record.", counts.stored());
    counter("readings_repeated", "Readings that were there already.", counts.repeated());
    counter("readings_rejected", "Messages and readings refused.", counts.rejected());
    gauge("waiting", "Readings not yet durable, or kept on this disk.", null, counts.waiting());
  }

  private void addParts(Map<String, ServiceInfo.Part> parts) {
    Map<String, Double> up = new LinkedHashMap<>();
    parts.forEach((name, part) -> up.put(name, part.isUp() ? 1.0 : 0.0));
    gauges("part_up", "Whether a part works.", "part", up);
  }

  private void addAlerts(List<Alert> open) {
    Map<String, Double> active = new LinkedHashMap<>();
    for (AlertKind kind : AlertKind.values()) {
      active.put(
          kind.key(),
          (double) open.stream().filter(alert -> alert.kind() == kind && alert.active()).count());
    }
    gauges("alerts_active", "Active alerts.", "kind", active);
  }

  private void addDisk(ServiceInfo.Disk disk) {
    gauge("data_folder", "Size of the data folder.", Unit.BYTES, disk.usedBytes());
    gauge("disk_free", "Free space on the disk of the data folder.", Unit.BYTES, disk.freeBytes());
    Double untilFull = disk.secondsUntilFull();
    if (untilFull != null) {
      String help = "Time until the disk is full at the present growth of the data folder.";
      gauge("disk_full_in", help, Unit.SECONDS, untilFull);
    }
  }

  private void addProcess(String version) {
    all.add(
        InfoSnapshot.builder()
            .name("tepidarium_build")
            .help("The version of the service.")
            .dataPoint(
                InfoDataPointSnapshot.builder().labels(Labels.of("version", version)).build())
            .build());
    RuntimeMXBean runtime = ManagementFactory.getRuntimeMXBean();
    all.add(
        GaugeSnapshot.builder()
            .name("process_start_time_seconds")
            .unit(Unit.SECONDS)
            .help("When the process started, Unix time.")
            .dataPoint(value(Labels.EMPTY, runtime.getStartTime() / 1000.0))
            .build());
    cpuSeconds().ifPresent(this::addCpu);
    gauge(
        "heap_used",
        "Memory in use on the heap.",
        Unit.BYTES,
        ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed());
  }

  private static OptionalDouble cpuSeconds() {
    return ManagementFactory.getOperatingSystemMXBean()
            instanceof com.sun.management.OperatingSystemMXBean system
        ? OptionalDouble.of(Math.max(0, system.getProcessCpuTime()) / 1e9)
        : OptionalDouble.empty();
  }

  private void addCpu(double seconds) {
    all.add(
        CounterSnapshot.builder()
            .name("process_cpu_seconds")
            .unit(Unit.SECONDS)
            .help("Processor time of the process.")
            .dataPoint(CounterDataPointSnapshot.builder().value(seconds).build())
            .build());
  }

  private void counter(String name, String help, double value) {
    all.add(
        CounterSnapshot.builder()
            .name("tepidarium_" + name)
            .help(help)
            .dataPoint(CounterDataPointSnapshot.builder().value(value).build())
            .build());
  }

  private void gauge(String name, String help, @Nullable Unit unit, double value) {
    GaugeSnapshot.Builder gauge = GaugeSnapshot.builder().help(help);
    if (unit != null) {
      gauge.unit(unit);
    }
    all.add(
        gauge
            .name("tepidarium_" + name + (unit == null ? "" : "_" + unit))
            .dataPoint(value(Labels.EMPTY, value))
            .build());
  }

  private void gauges(String name, String help, String label, Map<String, Double> values) {
    GaugeSnapshot.Builder gauge = GaugeSnapshot.builder().name("tepidarium_" + name).help(help);
    values.forEach((key, value) -> gauge.dataPoint(value(Labels.of(label, key), value)));
    all.add(gauge.build());
  }

  private static GaugeDataPointSnapshot value(Labels labels, double value) {
    return GaugeDataPointSnapshot.builder().labels(labels).value(value).build();
  }

  private String text() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      new OpenMetricsTextFormatWriter(false, false).write(out, new MetricSnapshots(all));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString(StandardCharsets.UTF_8);
  }
}
