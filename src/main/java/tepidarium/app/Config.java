package tepidarium.app;

import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.access.AnonymousSensors;
import tepidarium.ingest.MappingRule;
import tepidarium.light.Site;
import tepidarium.postgres.PostgresAddress;
import tepidarium.series.cassandra.CassandraAddress;
import tepidarium.series.influx.InfluxAddress;
import tepidarium.sites.OtherSite;
import tepidarium.tls.ClientTls;

/**
 * Holds all settings after the checks. {@link ConfigReader} reads them once at the start.
 *
 * @param data folder of all data
 * @param httpHost address that the pages and the API listen on; 0.0.0.0 accepts other machines
 * @param httpPort port of the pages and the API; 0 selects a free one
 * @param httpNames further host names of the pages, each with or without a port, in lower case
 * @param broker {@code embedded}, or the address of a broker such as {@code tcp://192.168.1.5:1883}
 * @param brokerUser name to log in to that broker, or null
 * @param brokerPassword password to log in to that broker, or null
 * @param brokerTls files for TLS to that broker, or null
 * @param mqttHost address on which the embedded broker listens
 * @param mqttPort port of the embedded broker
 * @param accounts names and passwords of sensors on the embedded broker
 * @param mqttLimits grants of clients of the embedded broker, and limits against floods
 * @param rootTopic the topic below which sensors publish
 * @param mappings rules for sensors with other topics or payloads
 * @param maxPayloadBytes largest MQTT payload that is read, bytes
 * @param maxGapMinutes two readings further apart than this, in minutes, leave a gap
 * @param silentAfterMinutes a placed sensor without readings for this long, in minutes, raises an
 *     alert
 * @param silentGraceSeconds no alert for silent sensors for this long after the start, and for one
 *     sensor after the latest part of its backlog, in seconds
 * @param timeZone time zone of the days in daily figures
 * @param keeping where readings are stored and for how long
 * @param site where the containers stand, to distinguish daylight from a lamp; null if not set
 * @param network the name of this site, and the other sites
 * @param access login and TLS of the pages and the API
 * @param sensorPort which sensors the embedded broker accepts
 * @param backups where backups are made and when
 * @param logFormat form of the lines in the log
 * @param notices who gets notices, how and when; without receivers they go to open pages and MQTT
 *     only
 * @param sources the settings as they were written, by place
 */
public record Config(
    Path data,
    String httpHost,
    int httpPort,
    Set<String> httpNames,
    String broker,
    @Nullable String brokerUser,
    @Nullable String brokerPassword,
    @Nullable ClientTls brokerTls,
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
    Network network,
    Access access,
    SensorPort sensorPort,
    BackupSettings backups,
    LogFormat logFormat,
    NoticesConfig notices,
    SettingsSources sources) {

  /**
   * The network of sites.
   *
   * @param name name of this site; null if it has none
   * @param others the sites that the page <i>Sites</i> shows
   */
  public record Network(@Nullable String name, List<OtherSite> others) {
    public Network {
      others = List.copyOf(others);
    }
  }

  /** When the pages and the API ask for a login. */
  public enum LoginMode {
    /** Ask unless httpHost is a loopback address. */
    AUTO,
    ALWAYS,
    NEVER
  }

  /**
   * Login and TLS of the pages and the API.
   *
   * @param tls certificate and key; null serves the pages without TLS
   * @param proxies addresses of reverse proxies whose X-Forwarded headers are trusted
   */
  public record Access(LoginMode login, @Nullable Tls tls, Set<String> proxies) {
    public Access {
      proxies = Set.copyOf(proxies);
    }
  }

  /**
   * Which sensors the embedded broker accepts.
   *
   * @param anonymous where it accepts sensors without an account; null for the default, which
   *     depends on whether there are accounts in the settings, and on the age of the data folder
   * @param tlsPort port for sensors with TLS; null for none
   */
  public record SensorPort(@Nullable AnonymousSensors anonymous, @Nullable Integer tlsPort) {}

  /**
   * TLS of the pages.
   *
   * @param certificate PEM file with the certificate and its chain
   * @param key PEM file with the private key
   */
  public record Tls(Path certificate, Path key) {}

  /**
   * Where records and readings are stored, and readings for how long.
   *
   * @param records the PostgreSQL database that stores the records; null stores them in records.db
   * @param standby whether other services share that database, and one takes over from another
   * @param readings the PostgreSQL database that stores the readings, or null
   * @param cassandra the Cassandra keyspace that stores them, or null
   * @param influx the InfluxDB server that stores them, or null; without any of the three, they are
   *     stored in readings.db
   * @param spoolMaxMegabytes disk space for readings while their server does not answer, MiB
   * @param rawDays age in days at which raw readings are deleted; null keeps them for ever
   */
  public record Keeping(
      @Nullable PostgresAddress records,
      boolean standby,
      @Nullable PostgresAddress readings,
      @Nullable CassandraAddress cassandra,
      @Nullable InfluxAddress influx,
      int spoolMaxMegabytes,
      @Nullable Double rawDays) {
    /** Names the server that stores the readings; null if they are stored in readings.db. */
    @Nullable String readingsServer() {
      if (readings != null) {
        return "the database " + readings;
      }
      if (cassandra != null) {
        return "the keyspace " + cassandra;
      }
      return influx == null ? null : "InfluxDB at " + influx.url();
    }

    /** Whether a database server stores the records, which may be away, and not a file. */
    boolean recordsElsewhere() {
      return records != null;
    }
  }

  /**
   * Automatic backups, and the settings that every backup contains.
   *
   * @param folder folder of automatic backups; null for the folder {@code backups} of the data
   * @param every interval of automatic backups; null makes none
   * @param keep number of automatic backups that are kept
   * @param settings the settings as YAML, without secrets
   */
  public record BackupSettings(
      @Nullable Path folder, @Nullable Duration every, int keep, String settings) {}

  /**
   * Limits of MQTT.
   *
   * @param grants further topics of each account of the embedded broker, by account name
   * @param maxSensors number of sensor names that are accepted without further limits
   * @param newSensorsPerHour number of further names that are accepted each hour
   * @param sessionHours time after which the embedded broker deletes the session of an absent
   *     subscriber, hours
   * @param sessionMegabytes largest size of the messages that wait for one subscriber of the
   *     embedded broker, MiB
   * @param messagesPerSecond messages a second that the embedded broker reads from one client
   * @param kilobytesPerSecond KiB a second that the embedded broker reads from one client
   */
  public record MqttLimits(
      Map<String, Grant> grants,
      int maxSensors,
      int newSensorsPerHour,
      int sessionHours,
      int sessionMegabytes,
      int messagesPerSecond,
      int kilobytesPerSecond) {
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

  static final String EMBEDDED = "embedded";
  private static final Pattern LOOPBACK = Pattern.compile("127(\\.\\d{1,3}){3}");

  /**
   * Checks settings that a program sets, with the names and types of a file. A missing setting gets
   * its default.
   *
   * @throws ConfigException if a setting is wrong; it lists every mistake
   */
  public static Config of(Map<String, ?> settings) {
    return ConfigReader.read(settings);
  }

  public Config {
    httpNames = Set.copyOf(httpNames);
    accounts = Map.copyOf(accounts);
    mappings = List.copyOf(mappings);
  }

  /** Leaves out all secrets, because this text may be printed. */
  @Override
  public String toString() {
    return "Config[data="
        + data
        + ", broker="
        + broker
        + ", readings="
        + keeping.readingsServer()
        + ']';
  }

  /** Returns the folder of automatic backups. */
  Path backupFolder() {
    Path folder = backups.folder();
    return folder == null ? data.resolve(Backups.FOLDER_NAME) : folder;
  }

  boolean embedded() {
    return broker.equals(EMBEDDED);
  }

  /** Whether the pages and the API ask for a login. */
  boolean asksForLogin() {
    return switch (access.login()) {
      case AUTO -> !isLoopback(httpHost);
      case ALWAYS -> true;
      case NEVER -> false;
    };
  }

  /** Whether other machines can use the pages without a login. */
  boolean isExposed() {
    return !asksForLogin() && !isLoopback(httpHost);
  }

  /** Whether the address is one of loopback; names are not looked up. */
  private static boolean isLoopback(String host) {
    return host.equals("localhost") || host.equals("::1") || LOOPBACK.matcher(host).matches();
  }

  Duration maxGap() {
    return Duration.ofMillis(Math.round(maxGapMinutes * 60_000));
  }

  Duration silentAfter() {
    return Duration.ofMillis(Math.round(silentAfterMinutes * 60_000));
  }
}
