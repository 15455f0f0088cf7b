package tepidarium.postgres;

import java.sql.SQLException;
import java.util.Arrays;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Describes a failure of PostgreSQL in words: what happened, to which database, what to do. The
 * codes are those of the appendix "PostgreSQL Error Codes" of its manual.
 */
public final class PostgresFailure {
  private static final String READ_ONLY = "25006";

  /** A lock was not free in time. */
  public static final String LOCKED = "55P03";

  /** A statement took too long, or somebody cancelled it; the connection goes on. */
  private static final String CANCELLED = "57014";

  /** What to do about each code, or about each class of codes; the name of a setting goes on. */
  private static final Map<String, String> WORDS =
      Map.ofEntries(
          Map.entry("28", "refuses the login. Check %1$sUser and %1$sPassword"),
          Map.entry("3D000", "does not exist. Create it, or correct %1$sUrl"),
          Map.entry("42501", "refuses a right. Make %1$sUser the owner of the database"),
          Map.entry(
              READ_ONLY,
              "takes no changes, because its server is a standby or read-only. Name every server of"
                  + " the cluster in %1$sUrl"),
          Map.entry("53100", "cannot store anything, because the disk of its server is full"),
          Map.entry("53200", "cannot store anything, because its server is out of memory"),
          Map.entry("53300", "has no connection left. Raise max_connections of its server"),
          Map.entry(
              LOCKED,
              "is locked, by another program or by an own change that waits for a synchronous"
                  + " standby"),
          Map.entry(CANCELLED, "took too long for a statement, which was given up"),
          Map.entry("57P03", "is not ready, because its server is starting or stopping"),
          Map.entry("57", "ended the connection"),
          Map.entry("08", "does not answer"));

  private PostgresFailure() {}

  /** The SQL failure among the causes of an exception; null if there is none. */
  public static @Nullable SQLException sql(Throwable failure) {
    Throwable cause = failure;
    while (cause != null && !(cause instanceof SQLException)) {
      cause = cause.getCause();
    }
    return (SQLException) cause;
  }

  /** Words about the failure of a call to the database. */
  public static String words(PostgresAddress address, Throwable failure) {
    SQLException sql = sql(failure);
    String state = sql == null ? "" : state(sql);
    String reason = firstLine(String.valueOf((sql == null ? failure : sql).getMessage()));
    String known = WORDS.getOrDefault(state, WORDS.get(prefix(state)));
    if (isOfStandby(reason)) {
      known = WORDS.get(READ_ONLY);
    }
    return "the database "
        + address
        + (known == null
            ? " failed: " + reason
            : " " + known.formatted(address.settings()) + " (" + reason + ')');
  }

  /**
   * Whether the connection cannot be used any more, or must be replaced by one to another server.
   */
  public static boolean needsNewConnection(Throwable failure) {
    SQLException sql = sql(failure);
    if (sql == null) {
      return false;
    }
    String state = state(sql);
    return prefix(state).equals("08")
        || (prefix(state).equals("57") && !state.equals(CANCELLED))
        || state.equals(READ_ONLY);
  }

  /**
   * Whether trying again cannot help before somebody changes the settings or the database. Of
   * several servers each one must refuse: another one that is away may be the one that takes
   * changes.
   */
  public static boolean isPermanent(SQLException failure) {
    String group = prefix(state(failure));
    return (group.equals("28") || group.equals("3D") || group.equals("42"))
        && Arrays.stream(failure.getSuppressed())
            .allMatch(other -> other instanceof SQLException sql && isPermanent(sql));
  }

  /**
   * Chooses which failure of two servers to report; the other one is suppressed in it. A server
   * that refuses comes first, then one that takes no changes, then one that does not answer.
   */
  static SQLException moreTelling(@Nullable SQLException first, SQLException second) {
    if (first == null) {
      return second;
    }
    boolean firstTells = rank(first) > rank(second);
    SQLException told = firstTells ? first : second;
    told.addSuppressed(firstTells ? second : first);
    return told;
  }

  private static int rank(SQLException failure) {
    if (isOfStandby(String.valueOf(failure.getMessage()))) {
      return 1;
    }
    return prefix(state(failure)).equals("08") ? 0 : 2;
  }

  /** Whether the driver says that a server takes no changes. */
  private static boolean isOfStandby(String message) {
    return message.contains("targetServerType");
  }

  /** Whether a failure, or one of its causes, has this code. */
  public static boolean hasState(Throwable failure, String state) {
    SQLException sql = sql(failure);
    return sql != null && state(sql).equals(state);
  }

  /** The code of a failure; empty if it has none. */
  private static String state(SQLException failure) {
    String state = failure.getSQLState();
    return state == null ? "" : state;
  }

  private static String prefix(String state) {
    return state.length() < 2 ? state : state.substring(0, 2);
  }

  private static String firstLine(String message) {
    return message.lines().findFirst().orElse(message);
  }
}
