package tepidarium.series.cassandra;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The nodes, keyspace and login of a Cassandra cluster.
 *
 * @param nodes nodes that are asked first; they tell the others
 * @param dataCentre the data centre whose nodes are used
 * @param user null if the cluster asks for no login
 * @param password null if the cluster asks for no login
 * @param sslMode how TLS is used: {@code disable}, {@code verify-ca} or {@code verify-full}, which
 *     also checks the node's name
 * @param authority PEM file with the certificates of the authorities that may sign the nodes'
 *     certificates; null for those of Java
 */
public record CassandraAddress(
    List<Node> nodes,
    String keyspace,
    String dataCentre,
    @Nullable String user,
    @Nullable String password,
    String sslMode,
    @Nullable String authority) {
  /** How addresses of Cassandra begin. */
  public static final String SCHEME = "cassandra://";

  /** The end of the message about an address that cannot be read. */
  public static final String FORM =
      "must be an address like cassandra://192.168.1.5,192.168.1.6/tepidarium?dc=datacenter1, with"
          + " commas between nodes, a keyspace of a-z 0-9 _, and without a name or password in it";

  static final String NO_TLS = "disable";
  static final String FULL_TLS = "verify-full";

  private static final int USUAL_PORT = 9042;
  private static final String USUAL_DATA_CENTRE = "datacenter1";
  private static final String HOST = "(?:[A-Za-z0-9._-]{1,253}|\\[[0-9A-Fa-f:.]+])(?::\\d{1,5})?";
  private static final Pattern URL =
      Pattern.compile(
          SCHEME
              + "("
              + HOST
              + "(?:,"
              + HOST
              + ")*)/([a-z][a-z0-9_]{0,47})(?:\\?((?:dc|sslmode|sslrootcert)=[^&?=]+"
              + "(?:&(?:dc|sslmode|sslrootcert)=[^&?=]+)*))?");
  private static final Set<String> MODES = Set.of(NO_TLS, "verify-ca", FULL_TLS);

  /** One node. */
  public record Node(String host, int port) {}

  public CassandraAddress {
    nodes = List.copyOf(nodes);
  }

  /**
   * Reads an address.
   *
   * @throws IllegalArgumentException if it has another form
   */
  public static CassandraAddress of(String url, @Nullable String user, @Nullable String password) {
    Matcher parts = URL.matcher(url);
    if (!parts.matches()) {
      throw new IllegalArgumentException(FORM);
    }
    Map<String, String> options = options(parts.group(3));
    String mode = options.getOrDefault("sslmode", NO_TLS);
    String authority = options.get("sslrootcert");
    if (!MODES.contains(mode) || (authority != null && mode.equals(NO_TLS))) {
      throw new IllegalArgumentException(
          "has sslmode "
              + mode
              + (authority == null ? "" : " with sslrootcert")
              + ". It can be disable, or verify-ca or verify-full with or without sslrootcert");
    }
    return new CassandraAddress(
        nodes(parts.group(1)),
        parts.group(2),
        options.getOrDefault("dc", USUAL_DATA_CENTRE),
        user,
        password,
        mode,
        authority);
  }

  /** The options after the question mark by name. */
  private static Map<String, String> options(@Nullable String text) {
    Map<String, String> options = new HashMap<>();
    for (String option : text == null ? new String[0] : text.split("&", -1)) {
      int equals = option.indexOf('=');
      if (options.put(option.substring(0, equals), option.substring(equals + 1)) != null) {
        throw new IllegalArgumentException(FORM);
      }
    }
    return options;
  }

  private static List<Node> nodes(String text) {
    List<Node> nodes = new ArrayList<>();
    for (String node : text.split(",", -1)) {
      int colon = node.endsWith("]") ? -1 : node.lastIndexOf(':');
      nodes.add(
          colon < 0
              ? new Node(node, USUAL_PORT)
              : new Node(node.substring(0, colon), Integer.parseInt(node.substring(colon + 1))));
    }
    return nodes;
  }

  /** Names keyspace and nodes, without the login, so that it can be printed. */
  @Override
  public String toString() {
    List<String> names = nodes.stream().map(one -> one.host() + ':' + one.port()).toList();
    return keyspace + " at " + String.join(" or ", names);
  }
}
