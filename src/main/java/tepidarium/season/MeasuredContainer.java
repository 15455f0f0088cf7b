package tepidarium.season;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.reading.Span;
import tepidarium.rollup.ContainerHistory;

/**
 * A container with the summary of its readings in a season.
 *
 * @param span part of the season from its first reading or placement to its last
 */
record MeasuredContainer(Container container, Span span, ContainerHistory.SpanSummary summary) {
  ContainerId id() {
    return container.id();
  }

  /** Whether temperature readings cover any part of the span. */
  boolean measured() {
    return summary.heat().coveredMs() > 0;
  }

  HeatRule rule() {
    return HeatRule.of(container.settings());
  }

  HeatSum heat(HeatRule rule) {
    return summary.hours().heat(span, rule);
  }

  /** The most common heat rule of the containers; the first if several are equally common. */
  static HeatRule commonRule(List<MeasuredContainer> containers) {
    Map<HeatRule, Integer> counts = new LinkedHashMap<>();
    containers.forEach(container -> counts.merge(container.rule(), 1, Integer::sum));
    return counts.entrySet().stream()
        .reduce((a, b) -> b.getValue() > a.getValue() ? b : a)
        .map(Map.Entry::getKey)
        .orElseThrow();
  }
}
