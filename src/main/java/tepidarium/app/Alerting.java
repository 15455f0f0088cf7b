package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import tepidarium.alert.AlertRules;
import tepidarium.alert.AlertStore;
import tepidarium.live.CalibrationErrors;
import tepidarium.live.Watch;
import tepidarium.records.AlertRecords;
import tepidarium.records.AlertRuleRecords;
import tepidarium.web.alerts.AlertViews;

/**
 * Raises and ends alerts.
 *
 * @param store the alerts
 * @param rules the limits of each container
 * @param views alerts as JSON
 * @param watch compares each new reading with the limits
 */
record Alerting(AlertStore store, AlertRules rules, AlertViews views, Watch watch) {

  static Alerting start(
      Config config,
      Stores stores,
      ContainerData containers,
      Pace pace,
      Clock clock,
      RunningParts running) {
    AlertStore store = new AlertRecords(stores.records());
    AlertRules rules =
        new AlertRules(
            new AlertRuleRecords(stores.records()),
            config.silentAfter(),
            new CalibrationErrors(containers.register(), clock));
    Watch watch =
        running.add(
            new Watch(
                containers.register(),
                containers.latestValues(),
                containers.heatSoFar(),
                containers.calibrated(),
                store,
                rules,
                Duration.ofSeconds(config.silentGraceSeconds()),
                pace.checks(),
                clock));
    return new Alerting(
        store, rules, new AlertViews(containers.register(), config.timeZone()), watch);
  }
}
