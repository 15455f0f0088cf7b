package tepidarium.postgres;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The servers, database and login of a PostgreSQL store.
 *
 * @param settings what it stores: {@code records} or {@code readings}. The names of its settings
 *     begin with this word
 * @param servers the servers of one cluster; the one that takes changes is used
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
              + ")*)/([A-Za-z0-9_.-]{1,63})"
              + "(?:\\?sslmode=(disable|prefer|require|verify-ca|verify-full)"
              + "(?:&sslrootcert=([^&?]+))?)?");

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
    return URL.matcher(url).matches();
  }

  /**
   * Reads an address.
   *
   * @throws IllegalArgumentException if it has another form
   */
  public static PostgresAddress of(
      String settings, String url, @Nullable String user, @Nullable String password) {
    Matcher parts = URL.matcher(url);
    if (!parts.matches()) {
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
    String mode = parts.group(3);
    return new PostgresAddress(
        settings,
        servers,
        parts.group(2),
        user,
        password,
        mode == null ? "prefer" : mode.toLowerCase(Locale.ROOT),
        parts.group(4));
  }

  /** Names database and servers, without the login, so that it can be printed. */
  @Override
  public String toString() {
    List<String> names = servers.stream().map(one -> one.host() + ':' + one.port()).toList();
    return database + " at " + String.join(" or ", names);
  }
}
