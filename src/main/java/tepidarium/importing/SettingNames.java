package tepidarium.importing;

/** Names the settings of an import in messages, as the person knows them who set them. */
public enum SettingNames {
  /** The options of the command, such as {@code --zone}. */
  OPTIONS,

  /** The fields of the page, such as "Time zone". */
  FIELDS;

  /** A setting that replaces a guess. */
  enum Setting {
    SENSOR("--sensor", "Sensor"),
    ZONE("--zone", "Time zone"),
    DATE_ORDER("--date-order", "Date order"),
    DECIMAL("--decimal", "Decimal sign"),
    DELIMITER("--delimiter", "Delimiter"),
    HEADER_LINE("--header-line", "Header line"),
    ENCODING("--encoding", "Encoding"),
    COLUMNS("--column", "Columns");

    private final String option;
    private final String field;

    Setting(String option, String field) {
      this.option = option;
      this.field = field;
    }
  }

  String of(Setting setting) {
    return this == OPTIONS ? setting.option : '"' + setting.field + '"';
  }

  /** A setting with a value: {@code --zone Mars}, or Mars in "Time zone". */
  String of(Setting setting, String value) {
    return this == OPTIONS ? setting.option + ' ' + value : value + " in " + of(setting);
  }

  /** The reason of a guess that a setting replaces. */
  String setBy(Setting setting) {
    return (this == OPTIONS ? "set by " : "set in ") + of(setting);
  }
}
