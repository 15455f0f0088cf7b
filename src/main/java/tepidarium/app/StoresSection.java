package tepidarium.app;

import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.postgres.PostgresAddress;
import tepidarium.series.cassandra.CassandraAddress;
import tepidarium.series.influx.InfluxAddress;

/**
 * The settings of a settings file that say where records and readings are kept, before the checks.
 *
 * @param records the settings {@code recordsUrl}, {@code recordsUser} and {@code recordsPassword}
 * @param readings the same of the readings, in PostgreSQL or Cassandra
 * @param influx the settings that begin with {@code influx}
 * @param embeddedBroker whether the broker is part of the service, so that no other one reaches it
 */
record StoresSection(
    Server records,
    Server readings,
    Influx influx,
    boolean standby,
    boolean embeddedBroker,
    @Nullable Integer spoolMaxMegabytes,
    @Nullable Double keepRawDays) {
  private static final int SPOOL_MEGABYTES = 1_024;
  private static final Pattern DATABASE = Pattern.compile("[A-Za-z0-9_./-]{1,64}");

  /**
   * The address of a database server and the login there.
   *
   * @param name how the names of the three settings begin
   */
  record Server(
      String name, @Nullable String url, @Nullable String user, @Nullable String password) {

    private boolean isCassandra() {
      return url != null && url.startsWith(CassandraAddress.SCHEME);
    }

    private @Nullable PostgresAddress postgres(ConfigProblems problems) {
      if (url == null) {
        problems.without(name + "Url", name + "User", user);
        problems.without(name + "Url", name + "Password", password);
        return null;
      }
      String checkedUser = problems.filled(name + "User", user);
      String checkedPassword = problems.filled(name + "Password", password);
      if (!PostgresAddress.isAddress(url)) {
        // Not with the address, which may have a password in it.
        problems.add(name + "Url " + PostgresAddress.FORM);
        return null;
      }
      return PostgresAddress.of(name, url, checkedUser, checkedPassword);
    }

    private @Nullable CassandraAddress cassandra(ConfigProblems problems) {
      if (url == null || !isCassandra()) {
        return null;
      }
      String checkedUser = problems.filled(name + "User", user);
      String checkedPassword = problems.filled(name + "Password", password);
      try {
        return CassandraAddress.of(url, checkedUser, checkedPassword);
      } catch (IllegalArgumentException e) {
        problems.add(name + "Url " + e.getMessage());
        return null;
      }
    }
  }

  /** The address of an InfluxDB server, its database and the login there. */
  record Influx(
      @Nullable String url,
      @Nullable String database,
      @Nullable String user,
      @Nullable String password,
      @Nullable String token) {

    private @Nullable InfluxAddress checked(ConfigProblems problems) {
      if (url == null) {
        problems.without("influxUrl", "influxDatabase", database);
        problems.without("influxUrl", "influxUser", user);
        problems.without("influxUrl", "influxPassword", password);
        problems.without("influxUrl", "influxToken", token);
        return null;
      }
      if (user == null) {
        problems.without("influxUser", "influxPassword", password);
      } else if (token != null) {
        problems.add("influxToken and influxUser are two ways to log in; set one of them");
      }
      return new InfluxAddress(
          problems.that(
              "influxUrl",
              url,
              ConfigFile::isWebAddress,
              "must be an address like http://192.168.1.5:8086, without a name or password in it"),
          problems.that(
              "influxDatabase",
              database == null ? "tepidarium" : database,
              text -> DATABASE.matcher(text).matches(),
              "must be 1 to 64 of A-Z a-z 0-9 _ - / and ."),
          problems.filled("influxUser", user),
          problems.filled("influxPassword", password),
          problems.filled("influxToken", token));
    }
  }

  Config.Keeping checked(ConfigProblems problems) {
    PostgresAddress recordsServer = records.postgres(problems);
    PostgresAddress readingsServer = readings.isCassandra() ? null : readings.postgres(problems);
    if (recordsServer != null
        && readingsServer != null
        && recordsServer.isOtherSchemaOf(readingsServer)) {
      problems.add(
          "recordsUrl and readingsUrl name one database with different schemas, so that two sites"
              + " could share readings. Give both the same currentSchema, or none");
    }
    if (readings.url() != null && influx.url() != null) {
      problems.add("readingsUrl and influxUrl are two places for the readings; set one of them");
    }
    checkStandby(problems);
    return new Config.Keeping(
        recordsServer,
        standby,
        readingsServer,
        readings.cassandra(problems),
        influx.checked(problems),
        problems.whole(
            "spoolMaxMegabytes",
            spoolMaxMegabytes == null ? SPOOL_MEGABYTES : spoolMaxMegabytes,
            1,
            1 << 20),
        keepRawDays == null ? null : problems.number("keepRawDays", keepRawDays, 1, 36_500));
  }

  private void checkStandby(ConfigProblems problems) {
    if (!standby) {
      return;
    }
    if (records.url() == null
        || (influx.url() == null && readings.url() == null)
        || embeddedBroker) {
      problems.add(
          "standby needs recordsUrl, readingsUrl or influxUrl, and broker, because a service can"
              + " only take over what is not on the other one's machine");
    }
    if (keepRawDays != null) {
      problems.add(
          "standby and keepRawDays exclude each other, because only one machine would have the"
              + " hourly sums of deleted readings");
    }
  }
}
