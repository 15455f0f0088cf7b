package tepidarium.web.settings;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.reading.InvalidInput;
import tepidarium.web.Params;
import tepidarium.web.pages.SettingDocs;
import tepidarium.web.settings.ServiceSettings.Setting;
import tepidarium.web.settings.ServiceSettings.Trial;

/** Routes to show and change the settings of the service, and to try channels for notices. */
public final class SettingRoutes {
  private final ServiceSettings settings;

  /**
   * A setting in the API.
   *
   * @param standard its default, in words
   * @param meaning its effect, in English
   */
  record SettingJson(
      @JsonUnwrapped Setting setting,
      @JsonProperty("default") @Nullable String standard,
      String meaning) {}

  record SettingsJson(String file, List<SettingJson> settings) {}

  record Changes(@Nullable Map<String, JsonNode> settings) {
    Map<String, JsonNode> needSettings() {
      if (settings == null) {
        throw new InvalidInput("settings", "is missing: send new values by the names of settings");
      }
      return settings;
    }
  }

  record TrialJson(String notifier, String kind, String target, boolean delivered, String words) {
    static TrialJson of(Trial trial) {
      return new TrialJson(
          trial.notifier().name(),
          trial.notifier().kind(),
          trial.notifier().target(),
          trial.outcome().result() == DeliveryOutcome.Result.DELIVERED,
          trial.outcome().words());
    }
  }

  public SettingRoutes(ServiceSettings settings) {
    this.settings = settings;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/settings", ctx -> ctx.json(json()));
    routes.patch("/api/settings", this::change);
    routes.post("/api/settings/trial", this::tryNotices);
  }

  private SettingsJson json() {
    Map<String, SettingDocs.Doc> docs = SettingDocs.all();
    return new SettingsJson(
        settings.file(), settings.all().stream().map(setting -> json(setting, docs)).toList());
  }

  private static SettingJson json(Setting setting, Map<String, SettingDocs.Doc> docs) {
    SettingDocs.Doc doc = docs.getOrDefault(setting.name(), SettingDocs.Doc.NONE);
    return new SettingJson(setting, doc.standard(), doc.meaning());
  }

  private void change(Context ctx) {
    settings.change(Params.body(ctx, Changes.class).needSettings());
    ctx.json(json());
  }

  private void tryNotices(Context ctx) {
    Changes changes = Params.body(ctx, Changes.class);
    ctx.json(settings.tryNotices(changes.needSettings()).stream().map(TrialJson::of).toList());
  }
}
