package tepidarium.app;

import java.net.URI;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.access.AnonymousSensors;
import tepidarium.access.SensorAccount;
import tepidarium.ingest.MappingRule;
import tepidarium.light.Site;
import tepidarium.tls.ClientTls;
import tepidarium.tls.PemFiles;

/**
 * The settings as they are written in a file, before the checks. A missing setting is null and gets
 * its default in {@link #checked}.
 */
record ConfigFile(
    @Nullable String data,
    @Nullable String httpHost,
    @Nullable Integer httpPort,
    @Nullable List<@Nullable String> httpNames,
    @Nullable String login,
    @Nullable GivenTls tls,
    @Nullable List<String> proxies,
    @Nullable String broker,
    @Nullable String brokerUser,
    @Nullable String brokerPassword,
    @Nullable GivenClientTls brokerTls,
    @Nullable String mqttHost,
    @Nullable Integer mqttPort,
    @Nullable Integer mqttTlsPort,
    @Nullable String anonymousSensors,
    @Nullable Map<String, @Nullable String> accounts,
    @Nullable Map<String, @Nullable GivenGrant> grants,
    @Nullable Integer maxSensors,
    @Nullable Integer newSensorsPerHour,
    @Nullable Integer sessionHours,
    @Nullable Integer sessionMegabytes,
    @Nullable Integer clientMessagesPerSecond,
    @Nullable Integer clientKilobytesPerSecond,
    @Nullable String rootTopic,
    @Nullable List<MappingRule> mappings,
    @Nullable Integer maxPayloadBytes,
    @Nullable Double maxGapMinutes,
    @Nullable Double silentAfterMinutes,
    @Nullable Integer silentGraceSeconds,
    @Nullable String timeZone,
    @Nullable String recordsUrl,
    @Nullable String recordsUser,
    @Nullable String recordsPassword,
    @Nullable Boolean standby,
    @Nullable String readingsUrl,
    @Nullable String readingsUser,
    @Nullable String readingsPassword,
    @Nullable String influxUrl,
    @Nullable String influxDatabase,
    @Nullable String influxUser,
    @Nullable String influxPassword,
    @Nullable String influxToken,
    @Nullable Integer spoolMaxMegabytes,
    @Nullable Double keepRawDays,
    @Nullable Place site,
    @Nullable Map<String, @Nullable List<String>> sites,
    @Nullable Map<String, @Nullable String> siteTokens,
    @Nullable BackupsSection backups,
    @Nullable String logFormat,
    NoticesSection notices) {
  static final String ROOT_TOPIC = "tepidarium";
  private static final Pattern HOST_NAME =
      Pattern.compile("([a-z0-9_-]+(\\.[a-z0-9_-]+)*|\\[[0-9a-f:.]+])(:\\d{1,5})?");
  private static final Pattern ADDRESS =
      Pattern.compile("\\d{1,3}(\\.\\d{1,3}){3}|[0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*");
  private static final Pattern ROOT = Pattern.compile("[^/+#\\s]+(/[^/+#\\s]+)*");

  /** The files for TLS, as they are written in a file. */
  record GivenTls(@Nullable String certificate, @Nullable String key) {
    private Config.@Nullable Tls checked(ConfigProblems problems) {
      if (certificate == null || key == null) {
        problems.add("tls needs both certificate and key, each the name of a PEM file");
        return null;
      }
      Path chain = problems.path("tls certificate", certificate);
      Path privateKey = problems.path("tls key", key);
      try {
        PemFiles.keyStore(chain, privateKey);
      } catch (IllegalArgumentException e) {
        problems.add("tls: " + e.getMessage());
      }
      return new Config.Tls(chain, privateKey);
    }
  }

  /** The files for TLS to an external broker, as they are written in a file. */
  record GivenClientTls(@Nullable String ca, @Nullable String certificate, @Nullable String key) {
    private ClientTls checked(ConfigProblems problems) {
      if ((certificate == null) != (key == null)) {
        problems.add("brokerTls needs both certificate and key, or neither");
      }
      ClientTls checked =
          new ClientTls(
              ca == null ? null : problems.path("brokerTls ca", ca),
              certificate == null ? null : problems.path("brokerTls certificate", certificate),
              key == null ? null : problems.path("brokerTls key", key));
      try {
        checked.socketFactory();
      } catch (IllegalArgumentException e) {
        problems.add("brokerTls: " + e.getMessage());
      }
      return checked;
    }
  }

  /** The topics of one account, as they are written in a file. */
  record GivenGrant(@Nullable List<String> publish, @Nullable List<String> read) {
    private Config.Grant checked() {
      return new Config.Grant(
          publish == null ? List.of() : publish, read == null ? List.of() : read);
    }
  }

  /** The site as it is written in a file: its name, and its place in degrees north and east. */
  record Place(@Nullable String name, @Nullable Double latitude, @Nullable Double longitude) {
    private @Nullable Site checked(ConfigProblems problems) {
      if (latitude == null && longitude == null && name != null) {
        return null;
      }
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

  /**
   * Checks every setting.
   *
   * @param sources where these settings come from, and the environment variables for secrets that a
   *     setting refers to
   * @param withoutSecrets these settings as YAML without secrets, for backups
   * @throws ConfigException if a setting is wrong; it lists every mistake
   */
  Config checked(SettingsSources sources, String withoutSecrets) {
    ConfigProblems problems = new ConfigProblems();
    ZoneId zone = problems.zone("timeZone", timeZone);
    Config config =
        new Config(
            problems.path("data", or(data, "data")),
            problems.host("httpHost", or(httpHost, "127.0.0.1")),
            problems.whole("httpPort", or(httpPort, 8080), 0, 65_535),
            names(problems),
            problems.that(
                "broker",
                or(broker, Config.EMBEDDED),
                ConfigFile::isBroker,
                "must be \"embedded\" or an address like tcp://192.168.1.5:1883"),
            problems.filled("brokerUser", brokerUser),
            problems.filled("brokerPassword", brokerPassword),
            brokerTls(problems),
            problems.host("mqttHost", or(mqttHost, "0.0.0.0")),
            problems.whole("mqttPort", or(mqttPort, 1883), 1, 65_535),
            problems.passwords("accounts", or(accounts, Map.of())),
            mqttLimits(problems),
            problems.that(
                "rootTopic",
                or(rootTopic, ROOT_TOPIC),
                t -> ROOT.matcher(t).matches(),
                "must be a topic without +, #, spaces or empty levels"),
            or(mappings, List.of()),
            problems.whole("maxPayloadBytes", or(maxPayloadBytes, 4 << 20), 1_000, 16 << 20),
            problems.number("maxGapMinutes", or(maxGapMinutes, 30.0), 1, 1_440),
            problems.number("silentAfterMinutes", or(silentAfterMinutes, 30.0), 1, 10_080),
            problems.whole("silentGraceSeconds", or(silentGraceSeconds, 300), 0, 86_400),
            zone,
            stores().checked(problems),
            site == null ? null : site.checked(problems),
            new NetworkSection(site == null ? null : site.name(), sites, siteTokens)
                .checked(problems),
            access(problems),
            sensorPort(problems),
            or(backups, BackupsSection.DEFAULT).checked(problems, withoutSecrets),
            logFormat(problems),
            notices.checked(problems, sources.variables(), zone),
            sources);
    if (config.embedded() && config.httpPort() == config.mqttPort()) {
      problems.add("httpPort and mqttPort must differ, not both " + config.httpPort());
    }
    if (brokerUser == null) {
      problems.without("brokerUser", "brokerPassword", brokerPassword);
    }
    problems.raise();
    return config;
  }

  private StoresSection stores() {
    return new StoresSection(
        new StoresSection.Server("records", recordsUrl, recordsUser, recordsPassword),
        new StoresSection.Server("readings", readingsUrl, readingsUser, readingsPassword),
        new StoresSection.Influx(
            influxUrl, influxDatabase, influxUser, influxPassword, influxToken),
        or(standby, false),
        or(broker, Config.EMBEDDED).equals(Config.EMBEDDED),
        spoolMaxMegabytes,
        keepRawDays);
  }

  private Config.Access access(ConfigProblems problems) {
    Set<String> trusted = new HashSet<>();
    for (String proxy : or(proxies, List.<String>of())) {
      trusted.add(
          problems.that(
              "proxies",
              proxy,
              p -> ADDRESS.matcher(p).matches(),
              "must list addresses of reverse proxies, such as 127.0.0.1"));
    }
    return new Config.Access(login(problems), tls == null ? null : tls.checked(problems), trusted);
  }

  private Config.SensorPort sensorPort(ConfigProblems problems) {
    if (mqttTlsPort == null) {
      return new Config.SensorPort(anonymous(problems), null);
    }
    int port = problems.whole("mqttTlsPort", mqttTlsPort, 1, 65_535);
    if (tls == null) {
      problems.add("mqttTlsPort has no effect without tls, the certificate and the key");
    }
    if (mqttTlsPort.equals(or(mqttPort, 1883)) || mqttTlsPort.equals(or(httpPort, 8080))) {
      problems.add("mqttTlsPort must differ from mqttPort and httpPort");
    }
    return new Config.SensorPort(anonymous(problems), port);
  }

  private @Nullable ClientTls brokerTls(ConfigProblems problems) {
    if (brokerTls == null) {
      return null;
    }
    if (!or(broker, Config.EMBEDDED).startsWith("ssl://")) {
      problems.add("brokerTls needs a broker with ssl://, such as ssl://192.168.1.5:8883");
    }
    return brokerTls.checked(problems);
  }

  private @Nullable AnonymousSensors anonymous(ConfigProblems problems) {
    return switch (or(anonymousSensors, "auto")) {
      case "auto" -> null;
      case "never" -> AnonymousSensors.NEVER;
      case "loopback" -> AnonymousSensors.LOOPBACK;
      case "everywhere" -> AnonymousSensors.EVERYWHERE;
      default -> {
        problems.add(
            "anonymousSensors must be auto, never, loopback or everywhere, not \""
                + anonymousSensors
                + '"');
        yield null;
      }
    };
  }

  private LogFormat logFormat(ConfigProblems problems) {
    return switch (or(logFormat, "text")) {
      case "text" -> LogFormat.TEXT;
      case "json" -> LogFormat.JSON;
      default -> {
        problems.add("logFormat must be text or json, not \"" + logFormat + '"');
        yield LogFormat.TEXT;
      }
    };
  }

  private Config.LoginMode login(ConfigProblems problems) {
    return switch (or(login, "auto")) {
      case "auto" -> Config.LoginMode.AUTO;
      case "always" -> Config.LoginMode.ALWAYS;
      case "never" -> Config.LoginMode.NEVER;
      default -> {
        problems.add("login must be auto, always or never, not \"" + login + '"');
        yield Config.LoginMode.ALWAYS;
      }
    };
  }

  private Config.MqttLimits mqttLimits(ConfigProblems problems) {
    return new Config.MqttLimits(
        grants(problems),
        problems.whole("maxSensors", or(maxSensors, 2_000), 1, 1_000_000),
        problems.whole("newSensorsPerHour", or(newSensorsPerHour, 100), 0, 1_000_000),
        // At most 576 h: the broker stores the milliseconds of a session in 31 bits.
        problems.whole("sessionHours", or(sessionHours, 24), 1, 576),
        problems.whole("sessionMegabytes", or(sessionMegabytes, 16), 1, 4_096),
        problems.whole("clientMessagesPerSecond", or(clientMessagesPerSecond, 100), 1, 1_000_000),
        problems.whole(
            "clientKilobytesPerSecond", or(clientKilobytesPerSecond, 256), 8, 1_000_000));
  }

  /**
   * Host names of the pages, in lower case: httpNames, httpHost and the host of notices.publicUrl.
   */
  private Set<String> names(ConfigProblems problems) {
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
    if (notices.publicUrl() != null && isWebAddress(notices.publicUrl())) {
      names.add(URI.create(notices.publicUrl()).getAuthority().toLowerCase(Locale.ROOT));
    }
    return names;
  }

  private Map<String, Config.Grant> grants(ConfigProblems problems) {
    Map<String, Config.Grant> checked = new HashMap<>();
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

  private static boolean hasFilters(String name, GivenGrant given, ConfigProblems problems) {
    List<@Nullable String> wrong =
        Stream.of(given.publish(), given.read())
            .filter(Objects::nonNull)
            .flatMap(List::stream)
            .filter(filter -> filter == null || !SensorAccount.isFilter(filter))
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

  /** Whether a text is an address of a web server: no name or password, query or fragment in it. */
  static boolean isWebAddress(String text) {
    try {
      URI uri = URI.create(text);
      return ("http".equals(uri.getScheme()) || "https".equals(uri.getScheme()))
          && uri.getHost() != null
          && uri.getPort() <= 65_535
          && uri.getUserInfo() == null
          && uri.getQuery() == null
          && uri.getFragment() == null;
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private static <T> T or(@Nullable T value, T otherwise) {
    return value == null ? otherwise : value;
  }

  private static boolean isBroker(String text) {
    if (text.equals(Config.EMBEDDED)) {
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
