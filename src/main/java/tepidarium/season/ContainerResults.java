package tepidarium.season;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.Opening;
import tepidarium.heat.HeatSum;
import tepidarium.light.LightCause;
import tepidarium.light.LightEvent;
import tepidarium.light.LightKind;
import tepidarium.light.Site;
import tepidarium.rollup.BandHistory;
import tepidarium.rollup.ContainerHistory;

/** Calculates the result of a container for a season report. */
final class ContainerResults {
  private static final double MS_PER_HOUR = 3_600_000.0;
  private static final double HOURS_PER_DAY = 24;

  private final ZoneId zone;
  private final @Nullable Site site;

  /**
   * Creates a calculator for one site.
   *
   * @param zone time zone in which days with a light leak are counted
   * @param site null if it is not known; daylight and lamps then count as other light
   */
  ContainerResults(ZoneId zone, @Nullable Site site) {
    this.zone = zone;
    this.site = site;
  }

  /**
   * The result of one container.
   *
   * @param seeds whether seeds lay in it
   * @param openings the recorded openings in the season
   */
  ContainerResult of(MeasuredContainer measuredContainer, boolean seeds, List<Opening> openings) {
    Container container = measuredContainer.container();
    ContainerHistory.SpanSummary summary = measuredContainer.summary();
    HeatSum heat = summary.heat();
    double outsideMs = summary.cold().time().outsideMs() + summary.hot().time().outsideMs();
    boolean hasReadings = measuredContainer.measured();
    return new ContainerResult(
        container.id().value(),
        container.name(),
        container.settings().heatSource(),
        seeds,
        container.settings().baseC(),
        container.band().temperatureLowC(),
        container.band().temperatureHighC(),
        container.band().humidityLowPercent(),
        heat.coveredHours(),
        heat.gapHours(),
        heat.leftOutHours(),
        heat.degreeHours(),
        heat.upper(measuredContainer.rule(), container.band().temperatureHighC()),
        hasReadings ? HOURS_PER_DAY * heat.degreeHours() / heat.coveredHours() : null,
        hasReadings ? 1 - Math.min(1, outsideMs / heat.coveredMs()) : null,
        summary.temperature() == null ? null : summary.temperature().min(),
        summary.temperature() == null ? null : summary.temperature().max(),
        outside(summary.cold(), openings),
        outside(summary.hot(), List.of()),
        summary.dry().time().outsideMs() / MS_PER_HOUR,
        summary.dry().time().coveredMs() / MS_PER_HOUR,
        summary.light().coveredMs() / MS_PER_HOUR,
        leaks(summary.light(), openings),
        openings.size());
  }

  /**
   * Time and excursions beyond a limit.
   *
   * @param openings recorded openings; empty for a limit that an opening cannot exceed
   */
  private static ContainerResult.Outside outside(
      BandHistory.LimitSummary limit, List<Opening> openings) {
    int duringOpenings = 0;
    double longest = 0;
    double lost = 0;
    for (BandHistory.ExcursionDetail out : limit.excursions()) {
      if (openings.stream().anyMatch(out.excursion()::isWithin)) {
        duringOpenings++;
      } else {
        longest = Math.max(longest, out.excursion().hours());
      }
      Double degreeHours = out.degreeHoursLost();
      lost += degreeHours == null ? 0 : degreeHours;
    }
    return new ContainerResult.Outside(
        limit.excursions().size() - duringOpenings,
        duringOpenings,
        limit.time().outsideMs() / MS_PER_HOUR,
        longest,
        lost);
  }

  private ContainerResult.Leaks leaks(ContainerHistory.LightSummary light, List<Opening> openings) {
    List<LightCause> causes = light.causes(openings, site);
    Map<LightKind, List<LightEvent>> byKind = new LinkedHashMap<>();
    for (LightKind kind : List.of(LightKind.DAYLIGHT, LightKind.LAMP, LightKind.OTHER)) {
      byKind.put(kind, new ArrayList<>());
    }
    for (int i = 0; i < causes.size(); i++) {
      List<LightEvent> events = byKind.get(causes.get(i).kind());
      if (events != null) {
        events.add(light.events().get(i).event());
      }
    }
    List<ContainerResult.LeaksOfKind> kinds =
        byKind.entrySet().stream()
            .filter(entry -> !entry.getValue().isEmpty())
            .map(entry -> ofKind(entry.getKey(), entry.getValue()))
            .toList();
    return new ContainerResult.Leaks(
        kinds.stream().mapToInt(ContainerResult.LeaksOfKind::count).sum(),
        kinds.stream().mapToDouble(ContainerResult.LeaksOfKind::doseLuxHours).sum(),
        kinds);
  }

  private ContainerResult.LeaksOfKind ofKind(LightKind kind, List<LightEvent> events) {
    Set<LocalDate> days = new HashSet<>();
    events.forEach(event -> days.add(event.start().atZone(zone).toLocalDate()));
    double dose = events.stream().mapToDouble(LightEvent::doseLuxHours).sum();
    return new ContainerResult.LeaksOfKind(kind.key(), events.size(), days.size(), dose);
  }
}
