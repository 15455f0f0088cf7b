package tepidarium.web.alerts;

import java.time.ZoneId;
import tepidarium.alert.Alert;
import tepidarium.container.Container;
import tepidarium.container.Register;

/** Creates the JSON of alerts, with the current names of their containers. Thread-safe. */
public final class AlertViews {
  private final Register register;
  private final ZoneId zone;

  /**
   * Creates the view.
   *
   * @param zone time zone of the times in messages
   */
  public AlertViews(Register register, ZoneId zone) {
    this.register = register;
    this.zone = zone;
  }

  public AlertJson alert(Alert alert) {
    String name =
        register
            .container(alert.container())
            .map(Container::name)
            .orElse(alert.container().value());
    return AlertJson.of(alert, name, zone);
  }
}
