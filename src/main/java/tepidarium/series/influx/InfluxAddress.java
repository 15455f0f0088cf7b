package tepidarium.series.influx;

import org.jspecify.annotations.Nullable;

/**
 * Where the InfluxDB server is and how to log in: with a name and a password, with a token, or not
 * at all.
 *
 * @param url for example {@code http://192.168.1.5:8086}
 * @param database the database that holds the readings; made when it is missing
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
