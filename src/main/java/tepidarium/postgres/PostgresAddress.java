package tepidarium.postgres;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The servers, database and login of a PostgreSQL store.
 *
 * @param settings what it stores: {@code records} or {@code readings}. The names of its settings
 *     begin with this word
 * @param servers the servers of one cluster; the one that takes changes is used
 * @param schema the schema of the records. The readings are in another one, whose name ends with
 *     {@code _readings}. Null for the schemas public and readings
 * @param user null for the name of the system's user, as PostgreSQL's own programs do
 * @param password null if the server asks for none
 * @param sslMode how TLS is used: disable, prefer, require, verify-ca or verify-full
 * @param authority PEM file with the certificates of the authorities that may sign the server's
 *     certificate; null for the driver's default
 */
public record PostgresAddress(
    String settings,
    List<Server> servers,
    String database,
    @Nullable String schema,
    @Nullable String user,
    @Nullable String password,
    String sslMode,
    @Nullable String authority) {
  private static final int USUAL_PORT = 5432;
  private static final String HOST = "(?:[A-Za-z0-9._-]{1,253}|\\[[0-9A-Fa-f:.]+])(?::\\d{1,5})?";
  private static final Pattern URL =
      Pattern.compile(
          "postgres(?:ql)?://("
              + HOST
              + "(?:,"
              + HOST
              + ")*)/([A-Za-z0-9_.-]{1,63})(?:\\?([^?]+))?");
  private static final String SCHEMA = "currentSchema";
  private static final String MODE = "sslmode";
  private static final String AUTHORITY = "sslrootcert";

  /**
   * Small letters only, so that a name is the same with and without quotes. The schemas of sites
   * without a name, and of readings, are not for the records of a site.
   */
  private static final Map<String, Pattern> OPTIONS =
      Map.of(
          MODE, Pattern.compile("disable|prefer|require|verify-ca|verify-full"),
          AUTHORITY, Pattern.compile(".+"),
          SCHEMA, Pattern.compile("(?!pg_|public$|(?:.*_)?readings$)[a-z][a-z0-9_]{0,49}"));

  /** The end of the message about an address that cannot be read. */
  public static final String FORM =
      "must be an address like postgresql://192.168.1.5:5432/tepidarium, with commas between"
          + " several servers, without a name or password in it";

  /** One server. */
  public record Server(String host, int port) {}

  public PostgresAddress {
    servers = List.copyOf(servers);
  }

  /** Whether an address has the form that {@link #of} reads. */
  public static boolean isAddress(String url) {
    Matcher parts = URL.matcher(url);
    return parts.matches() && options(parts.group(3)) != null;
  }

  /** The options after the question mark by name; null if one is unknown, wrong or there twice. */
  private static @Nullable Map<String, String> options(@Nullable String text) {
    Map<String, String> options = new HashMap<>();
    if (text == null) {
      return options;
    }
    for (String option : text.split("&", -1)) {
      String[] parts = option.split("=", 2);
      Pattern valid = OPTIONS.get(parts[0]);
      if (valid == null
          || parts.length < 2
          || !valid.matcher(parts[1]).matches()
          || options.put(parts[0], parts[1]) != null) {
        return null;
      }
    }
    return options;
  }

  /**
   * Reads an address.
   *
   * @throws IllegalArgumentException if it has another form
   */
  public static PostgresAddress of(
      String settings, String url, @Nullable String user, @Nullable String password) {
    Matcher parts = URL.matcher(url);
    Map<String, String> options = parts.matches() ? options(parts.group(3)) : null;
    if (options == null) {
      throw new IllegalArgumentException(FORM);
    }
    List<Server> servers = new ArrayList<>();
    for (String server : parts.group(1).split(",", -1)) {
      int colon = server.endsWith("]") ? -1 : server.lastIndexOf(':');
      servers.add(
          colon < 0
              ? new Server(server, USUAL_PORT)
              : new Server(
                  server.substring(0, colon), Integer.parseInt(server.substring(colon + 1))));
    }
    return new PostgresAddress(
        settings,
        servers,
        parts.group(2),
        options.get(SCHEMA),
        user,
        password,
        options.getOrDefault(MODE, "prefer"),
        options.get(AUTHORITY));
  }

  /**
   * What tells this database from others, also two schemas of one; neither name can hold a colon.
   */
  public String key() {
    return schema == null ? database : database + ':' + schema;
  }

  /** Whether both name the same database of a common server, and different schemas in it. */
  public boolean isOtherSchemaOf(PostgresAddress other) {
    return database.equals(other.database)
        && !Collections.disjoint(servers, other.servers)
        && !Objects.equals(schema, other.schema);
  }

  /** Names database and servers, without the login, so that it can be printed. */
  @Override
  public String toString() {
    List<String> names = servers.stream().map(one -> one.host() + ':' + one.port()).toList();
    String place = schema == null ? database : database + " (schema " + schema + ')';
    return place + " at " + String.join(" or ", names);
  }
}
