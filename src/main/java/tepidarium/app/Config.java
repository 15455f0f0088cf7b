package tepidarium.app;

import java.net.URI;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.MappingRule;
import tepidarium.light.Site;
import tepidarium.series.influx.InfluxAddress;

/**
 * All settings, checked. Read once by {@link ConfigReader}; every problem is reported, not only the
 * first.
 *
 * @param data folder of everything that is kept
 * @param httpHost address of the pages and the API; 0.0.0.0 lets other machines in
 * @param httpPort port of the pages and the API; 0 takes a free one
 * @param httpNames further host names of the pages, each with or without a port, in lower case
 * @param broker {@code embedded}, or the address of a broker such as {@code tcp://192.168.1.5:1883}
 * @param brokerUser name to log in to that broker, or null
 * @param brokerPassword password to log in to that broker, or null
 * @param mqttHost address on which the embedded broker listens
 * @param mqttPort port of the embedded broker
 * @param accounts names and passwords of sensors on the embedded broker; empty lets all in
 * @param mqttLimits what clients of the embedded broker are granted, and limits against floods
 * @param rootTopic the topic below which sensors publish
 * @param mappings rules for sensors that publish in their own way
 * @param maxPayloadBytes the largest MQTT payload that is read
 * @param maxGapMinutes readings further apart than this leave a gap
 * @param silentAfterMinutes a placed sensor not heard for this long raises an alert
 * @param silentGraceSeconds after the start nobody is called silent for this long
 * @param timeZone where a day begins, for figures by day
 * @param keeping where readings are kept and for how long
 * @param site where the containers stand, to tell daylight from a lamp; null when not told
 * @param notices who is told, how and when; null tells open pages and MQTT only
 */
public record Config(
    Path data,
    String httpHost,
    int httpPort,
    Set<String> httpNames,
    String broker,
    @Nullable String brokerUser,
    @Nullable String brokerPassword,
    String mqttHost,
    int mqttPort,
    Map<String, String> accounts,
    MqttLimits mqttLimits,
    String rootTopic,
    List<MappingRule> mappings,
    int maxPayloadBytes,
    double maxGapMinutes,
    double silentAfterMinutes,
    int silentGraceSeconds,
    ZoneId timeZone,
    Keeping keeping,
    @Nullable Site site,
    @Nullable NoticesConfig notices) {

  /**
   * Where readings are kept and for how long.
   *
   * @param influx the InfluxDB server that keeps them; null keeps them in a file of their own
   * @param spoolMaxMegabytes the disk space for readings while that server is away, MiB
   * @param rawDays after how many days raw readings are let go; null keeps them for ever
   */
  public record Keeping(
      @Nullable InfluxAddress influx, int spoolMaxMegabytes, @Nullable Double rawDays) {}

  /**
   * Limits of MQTT.
   *
   * @param grants what accounts of the embedded broker may do besides their own topics, by name
   * @param maxSensors so many names of sensors are known without further limits
   * @param newSensorsPerHour so many names more become known each hour
   * @param sessionHours after so many hours the embedded broker forgets an absent subscriber
   * @param sessionMegabytes so much may wait for one subscriber of the embedded broker, MiB
   */
  public record MqttLimits(
      Map<String, Grant> grants,
      int maxSensors,
      int newSensorsPerHour,
      int sessionHours,
      int sessionMegabytes) {
    public MqttLimits {
      grants = Map.copyOf(grants);
    }
  }

  /** Topic filters that an account may publish to and read besides its own topics. */
  public record Grant(List<String> publish, List<String> read) {
    public Grant {
      publish = List.copyOf(publish);
      read = List.copyOf(read);
    }
  }

  /** A grant as it stands in a file. */
  record GivenGrant(@Nullable List<String> publish, @Nullable List<String> read) {
    private Grant checked() {
      return new Grant(publish == null ? List.of() : publish, read == null ? List.of() : read);
    }
  }

  static final String EMBEDDED = "embedded";
  private static final int SPOOL_MEGABYTES = 1_024;
  private static final Pattern DATABASE = Pattern.compile("[A-Za-z0-9_./-]{1,64}");
  private static final Pattern HOST_NAME =
      Pattern.compile("([a-z0-9_-]+(\\.[a-z0-9_-]+)*|\\[[0-9a-f:.]+])(:\\d{1,5})?");
  private static final Pattern FILTER =
      Pattern.compile("(#|(\\+|[^/+#$][^/+#]*)(/(\\+|[^/+#]+))*(/#)?)");
  private static final Pattern HOST =
      Pattern.compile("[A-Za-z0-9._-]{1,253}|[0-9A-Fa-f:.]{2,45}(%\\w+)?");
  private static final Pattern ROOT = Pattern.compile("[^/+#\\s]+(/[^/+#\\s]+)*");

  /**
   * Settings that a program makes, by the names and in the shapes of a file; what is missing has
   * its default.
   *
   * @throws ConfigException naming everything that is wrong
   */
  public static Config of(Map<String, ?> settings) {
    return ConfigReader.read(settings);
  }

  public Config {
    httpNames = Set.copyOf(httpNames);
    accounts = Map.copyOf(accounts);
    mappings = List.copyOf(mappings);
  }

  /** Without secrets, so that it can be printed. */
  @Override
  public String toString() {
    return "Config[data=" + data + ", broker=" + broker + ", influx=" + keeping.influx() + ']';
  }

  boolean embedded() {
    return broker.equals(EMBEDDED);
  }

  Duration maxGap() {
    return Duration.ofMillis(Math.round(maxGapMinutes * 60_000));
  }

  Duration silentAfter() {
    return Duration.ofMillis(Math.round(silentAfterMinutes * 60_000));
  }

  /** The site as it stands in a file, degrees north and east. */
  record Place(@Nullable Double latitude, @Nullable Double longitude) {
    private @Nullable Site checked(Problems problems) {
      if (latitude == null || longitude == null) {
        problems.add("site needs both latitude and longitude, in degrees north and east");
        return null;
      }
      try {
        return new Site(latitude, longitude);
      } catch (IllegalArgumentException e) {
        problems.add("site " + e.getMessage());
        return null;
      }
    }
  }

  /** The settings as they stand in a file; what is missing has its default. */
  record File(
      @Nullable String data,
      @Nullable String httpHost,
      @Nullable Integer httpPort,
      @Nullable List<@Nullable String> httpNames,
      @Nullable String broker,
      @Nullable String brokerUser,
      @Nullable String brokerPassword,
      @Nullable String mqttHost,
      @Nullable Integer mqttPort,
      @Nullable Map<String, @Nullable String> accounts,
      @Nullable Map<String, @Nullable GivenGrant> grants,
      @Nullable Integer maxSensors,
      @Nullable Integer newSensorsPerHour,
      @Nullable Integer sessionHours,
      @Nullable Integer sessionMegabytes,
      @Nullable String rootTopic,
      @Nullable List<MappingRule> mappings,
      @Nullable Integer maxPayloadBytes,
      @Nullable Double maxGapMinutes,
      @Nullable Double silentAfterMinutes,
      @Nullable Integer silentGraceSeconds,
      @Nullable String timeZone,
      @Nullable String influxUrl,
      @Nullable String influxDatabase,
      @Nullable String influxUser,
      @Nullable String influxPassword,
      @Nullable String influxToken,
      @Nullable Integer spoolMaxMegabytes,
      @Nullable Double keepRawDays,
      @Nullable Place site,
      NoticesConfig.@Nullable File notices) {

    Config checked(Map<String, String> environment) {
      Problems problems = new Problems();
      ZoneId zone = problems.zone("timeZone", timeZone);
      Config config =
          new Config(
              problems.path("data", or(data, "data")),
              problems.host("httpHost", or(httpHost, "127.0.0.1")),
              problems.whole("httpPort", or(httpPort, 8080), 0, 65_535),
              names(problems),
              problems.that(
                  "broker",
                  or(broker, EMBEDDED),
                  File::isBroker,
                  "must be \"embedded\" or an address like tcp://192.168.1.5:1883"),
              problems.filled("brokerUser", brokerUser),
              problems.filled("brokerPassword", brokerPassword),
              problems.host("mqttHost", or(mqttHost, "0.0.0.0")),
              problems.whole("mqttPort", or(mqttPort, 1883), 1, 65_535),
              problems.passwords("accounts", or(accounts, Map.of())),
              new MqttLimits(
                  grants(problems),
                  problems.whole("maxSensors", or(maxSensors, 2_000), 1, 1_000_000),
                  problems.whole("newSensorsPerHour", or(newSensorsPerHour, 100), 0, 1_000_000),
                  // The broker counts the milliseconds of a session in 31 bits.
                  problems.whole("sessionHours", or(sessionHours, 24), 1, 576),
                  problems.whole("sessionMegabytes", or(sessionMegabytes, 16), 1, 4_096)),
              problems.that(
                  "rootTopic",
                  or(rootTopic, "tepidarium"),
                  t -> ROOT.matcher(t).matches(),
                  "must be a topic without +, #, spaces or empty levels"),
              or(mappings, List.of()),
              problems.whole("maxPayloadBytes", or(maxPayloadBytes, 4 << 20), 1_000, 16 << 20),
              problems.number("maxGapMinutes", or(maxGapMinutes, 30.0), 1, 1_440),
              problems.number("silentAfterMinutes", or(silentAfterMinutes, 30.0), 1, 10_080),
              problems.whole("silentGraceSeconds", or(silentGraceSeconds, 300), 0, 86_400),
              zone,
              new Keeping(
                  influx(problems),
                  problems.whole(
                      "spoolMaxMegabytes", or(spoolMaxMegabytes, SPOOL_MEGABYTES), 1, 1 << 20),
                  keepRawDays == null
                      ? null
                      : problems.number("keepRawDays", keepRawDays, 1, 36_500)),
              site == null ? null : site.checked(problems),
              notices == null ? null : notices.checked(problems, environment, zone));
      if (config.embedded() && config.httpPort() == config.mqttPort()) {
        problems.add("httpPort and mqttPort must differ, not both " + config.httpPort());
      }
      if (brokerUser == null) {
        problems.without("brokerUser", "brokerPassword", brokerPassword);
      }
      problems.raise();
      return config;
    }

    /** The names that are set, and those that other settings hold: httpHost, notices.publicUrl. */
    private Set<String> names(Problems problems) {
      Set<String> names = new HashSet<>();
      for (String name : or(httpNames, List.<@Nullable String>of())) {
        names.add(
            problems.that(
                "httpNames",
                name == null ? "" : name.toLowerCase(Locale.ROOT),
                n -> HOST_NAME.matcher(n).matches(),
                "must list host names like garden.example.org, without http://"));
      }
      if (httpHost != null) {
        names.add(httpHost.toLowerCase(Locale.ROOT));
      }
      if (notices != null && notices.publicUrl() != null && isWebAddress(notices.publicUrl())) {
        names.add(URI.create(notices.publicUrl()).getAuthority().toLowerCase(Locale.ROOT));
      }
      return names;
    }

    private Map<String, Grant> grants(Problems problems) {
      Map<String, Grant> checked = new HashMap<>();
      or(grants, Map.<String, @Nullable GivenGrant>of())
          .forEach(
              (name, given) -> {
                if (!or(accounts, Map.of()).containsKey(name)) {
                  problems.add("grants " + name + ": there is no account of this name");
                }
                if (given == null) {
                  problems.add("grants " + name + " needs publish or read, lists of topics");
                } else if (hasFilters(name, given, problems)) {
                  checked.put(name, given.checked());
                }
              });
      return checked;
    }

    private static boolean hasFilters(String name, GivenGrant given, Problems problems) {
      List<@Nullable String> wrong =
          Stream.of(given.publish(), given.read())
              .filter(Objects::nonNull)
              .flatMap(List::stream)
              .filter(filter -> filter == null || !FILTER.matcher(filter).matches())
              .toList();
      wrong.forEach(
          filter ->
              problems.add(
                  "grants "
                      + name
                      + " must hold topics, with + for one level and # at the end for all below,"
                      + " not \""
                      + filter
                      + '"'));
      return wrong.isEmpty();
    }

    private @Nullable InfluxAddress influx(Problems problems) {
      if (influxUrl == null) {
        problems.without("influxUrl", "influxDatabase", influxDatabase);
        problems.without("influxUrl", "influxUser", influxUser);
        problems.without("influxUrl", "influxPassword", influxPassword);
        problems.without("influxUrl", "influxToken", influxToken);
        return null;
      }
      if (influxUser == null) {
        problems.without("influxUser", "influxPassword", influxPassword);
      } else if (influxToken != null) {
        problems.add("influxToken and influxUser are two ways to log in; set one of them");
      }
      return new InfluxAddress(
          problems.that(
              "influxUrl",
              influxUrl,
              File::isWebAddress,
              "must be an address like http://192.168.1.5:8086, without a name or password in it"),
          problems.that(
              "influxDatabase",
              or(influxDatabase, "tepidarium"),
              name -> DATABASE.matcher(name).matches(),
              "must be 1 to 64 of A-Z a-z 0-9 _ - / and ."),
          problems.filled("influxUser", influxUser),
          problems.filled("influxPassword", influxPassword),
          problems.filled("influxToken", influxToken));
    }

    private static boolean isWebAddress(String text) {
      try {
        URI uri = URI.create(text);
        return ("http".equals(uri.getScheme()) || "https".equals(uri.getScheme()))
            && uri.getHost() != null
            && uri.getUserInfo() == null
            && uri.getQuery() == null;
      } catch (IllegalArgumentException e) {
        return false;
      }
    }

    private static <T> T or(@Nullable T value, T otherwise) {
      return value == null ? otherwise : value;
    }

    private static boolean isBroker(String text) {
      if (text.equals(EMBEDDED)) {
        return true;
      }
      try {
        URI uri = URI.create(text);
        return ("tcp".equals(uri.getScheme()) || "ssl".equals(uri.getScheme()))
            && uri.getHost() != null
            && uri.getPort() > 0;
      } catch (IllegalArgumentException e) {
        return false;
      }
    }
  }

  /** Collects what is wrong, so that all of it can be said at once. */
  static final class Problems {
    private final List<String> lines = new ArrayList<>();

    int whole(String name, int value, int least, int most) {
      if (value < least || value > most) {
        lines.add(name + " must be from " + least + " to " + most + ", not " + value);
      }
      return value;
    }

    double number(String name, double value, double least, double most) {
      if (!(value >= least && value <= most)) {
        lines.add(name + " must be from " + least + " to " + most + ", not " + value);
      }
      return value;
    }

    String that(String name, String value, Predicate<String> fits, String demand) {
      if (!fits.test(value)) {
        lines.add(name + " " + demand + ", not \"" + value + '"');
      }
      return value;
    }

    /** An address or a host name to listen on; whether it exists shows only when it is used. */
    String host(String name, String value) {
      return that(
          name,
          value,
          host -> HOST.matcher(host).matches(),
          "must be an address or a host name, such as 127.0.0.1");
    }

    /** A value that may be left out, but not be empty. */
    @Nullable String filled(String name, @Nullable String value) {
      if (value != null && value.isBlank()) {
        lines.add(name + " is empty; write a value or leave the setting out");
      }
      return value;
    }

    /** Names with a password each. */
    Map<String, String> passwords(String name, Map<String, @Nullable String> given) {
      Map<String, String> passwords = new HashMap<>();
      given.forEach(
          (user, password) -> {
            if (user.isBlank()) {
              lines.add(name + " has an empty name");
            }
            if (password == null || password.isEmpty()) {
              lines.add(name + ' ' + user + " needs a password that is not empty");
            } else {
              passwords.put(user, password);
            }
          });
      return passwords;
    }

    Path path(String name, String value) {
      try {
        return Path.of(value);
      } catch (InvalidPathException e) {
        lines.add(name + " is no folder's name: " + e.getMessage());
        return Path.of("data");
      }
    }

    ZoneId zone(String name, @Nullable String value) {
      try {
        return value == null ? ZoneId.systemDefault() : ZoneId.of(value);
      } catch (DateTimeException e) {
        lines.add(name + " must be a time zone like Europe/Berlin or UTC, not \"" + value + '"');
        return ZoneId.of("UTC");
      }
    }

    void without(String needed, String name, @Nullable String value) {
      if (value != null) {
        lines.add(name + " means nothing without " + needed);
      }
    }

    void add(String line) {
      lines.add(line);
    }

    void raise() {
      if (!lines.isEmpty()) {
        throw new ConfigException(lines);
      }
    }
  }
}
