package tepidarium.series.influx;

import org.jspecify.annotations.Nullable;

/**
 * The URL and login of an InfluxDB server: user and password, a token, or no login.
 *
 * @param url for example {@code http://192.168.1.5:8086}
 * @param database the database for the readings; created if missing
 */
public record InfluxAddress(
    String url,
    String database,
    @Nullable String user,
    @Nullable String password,
    @Nullable String token) {

  /** Without secrets, so that it can be printed. */
  @Override
  public String toString() {
    return url + " (database " + database + ')';
  }
}
