package tepidarium.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The settings as they were written, by the place where they were set. Each place wins over the
 * places before it: the page <i>Settings</i>, the settings file, the environment, the command line.
 *
 * @param page saved by the page, in the data folder
 * @param environment settings from environment variables
 * @param commandLine settings from options of the command
 * @param path the settings file; null for none
 * @param variables all environment variables, for secrets that a setting refers to
 */
record SettingsSources(
    ObjectNode page,
    ObjectNode file,
    ObjectNode environment,
    ObjectNode commandLine,
    @Nullable Path path,
    Map<String, String> variables) {

  /** Where a setting was set. */
  enum Place {
    NOWHERE,
    PAGE,
    FILE,
    ENVIRONMENT,
    COMMAND_LINE
  }

  /** Returns the same sources with other settings of the page. */
  SettingsSources withPage(ObjectNode newPage) {
    return new SettingsSources(newPage, file, environment, commandLine, path, variables);
  }

  /** All settings together, as one tree. */
  ObjectNode merged() {
    ObjectNode upper = withoutPage();
    ObjectNode all = page.deepCopy();
    addTo(all, upper);
    return all;
  }

  /**
   * The settings that the page cannot change, because the file, the environment or the command line
   * has them. Each of these replaces a whole setting or a whole section.
   */
  private ObjectNode withoutPage() {
    ObjectNode upper = file.deepCopy();
    upper.setAll(environment);
    upper.setAll(commandLine);
    return upper;
  }

  /** Adds settings, and within a section its settings one by one. Null sets nothing. */
  private static void addTo(ObjectNode target, ObjectNode added) {
    for (Map.Entry<String, JsonNode> setting : added.properties()) {
      String name = setting.getKey();
      if (setting.getValue() instanceof ObjectNode section
          && target.get(name) instanceof ObjectNode present) {
        addTo(present, section);
      } else if (!setting.getValue().isNull() || !target.has(name)) {
        target.set(name, setting.getValue());
      }
    }
  }

  /**
   * Returns the place that decides a setting.
   *
   * @param name its name, with dots between section and setting
   */
  Place place(String name) {
    if (commandLine.has(topName(name))) {
      return Place.COMMAND_LINE;
    }
    if (environment.has(topName(name))) {
      return Place.ENVIRONMENT;
    }
    if (value(file, name) != null) {
      return Place.FILE;
    }
    return value(page, name) == null ? Place.NOWHERE : Place.PAGE;
  }

  /** Returns the name of the section of a setting, or the name itself if it has none. */
  static String topName(String name) {
    int dot = name.indexOf('.');
    return dot < 0 ? name : name.substring(0, dot);
  }

  /** Returns the value of a setting in a tree of settings; null if it is not set there. */
  static @Nullable JsonNode value(ObjectNode settings, String name) {
    JsonNode value = settings.at('/' + name.replace('.', '/'));
    return value.isMissingNode() || value.isNull() ? null : value;
  }

  /** Leaves out all values, because they may be secrets and this text may be printed. */
  @Override
  public String toString() {
    return "SettingsSources[path=" + path + ']';
  }
}
