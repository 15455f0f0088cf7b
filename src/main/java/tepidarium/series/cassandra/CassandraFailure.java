package tepidarium.series.cassandra;

import com.datastax.oss.driver.api.core.AllNodesFailedException;
import com.datastax.oss.driver.api.core.DriverTimeoutException;
import com.datastax.oss.driver.api.core.InvalidKeyspaceException;
import com.datastax.oss.driver.api.core.NoNodeAvailableException;
import com.datastax.oss.driver.api.core.auth.AuthenticationException;
import com.datastax.oss.driver.api.core.connection.ClosedConnectionException;
import com.datastax.oss.driver.api.core.connection.HeartbeatException;
import com.datastax.oss.driver.api.core.servererrors.InvalidQueryException;
import com.datastax.oss.driver.api.core.servererrors.OverloadedException;
import com.datastax.oss.driver.api.core.servererrors.QueryConsistencyException;
import com.datastax.oss.driver.api.core.servererrors.UnauthorizedException;
import com.datastax.oss.driver.api.core.servererrors.UnavailableException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Describes a failure of Cassandra in words: what happened, to which keyspace, what to do. The
 * driver often tells of one failure for each node; the first one that is known counts.
 */
final class CassandraFailure {
  private CassandraFailure() {}

  /** Words about the failure of a call to the cluster. */
  static String words(CassandraAddress address, Throwable failure) {
    List<Throwable> all = new ArrayList<>();
    collect(failure, all);
    String known = known(all).orElse("");
    Throwable last = all.get(all.size() - 1);
    String reason = firstLine(last);
    return "the keyspace "
        + address
        + (known.isEmpty() ? " failed: " + reason : " " + known + " (" + reason + ')');
  }

  /** The failure, its causes, and those of each node. */
  private static void collect(Throwable failure, List<Throwable> all) {
    all.add(failure);
    if (failure instanceof AllNodesFailedException failures) {
      failures.getAllErrors().values().stream()
          .flatMap(List::stream)
          .forEach(one -> collect(one, all));
    }
    if (failure.getCause() != null && !all.contains(failure.getCause())) {
      collect(failure.getCause(), all);
    }
  }

  /** In the order in which somebody should look: a refused login says more than a node away. */
  private static Optional<String> known(List<Throwable> all) {
    return Stream.<Function<Throwable, @Nullable String>>of(
            CassandraFailure::refused, CassandraFailure::fewOrSlow, CassandraFailure::away)
        .flatMap(words -> all.stream().map(words).filter(Objects::nonNull))
        .findFirst();
  }

  private static @Nullable String refused(Throwable failure) {
    if (failure instanceof AuthenticationException) {
      return "refuses the login. Check readingsUser and readingsPassword";
    }
    if (failure instanceof UnauthorizedException) {
      return "refuses a right. Grant readingsUser all permissions on the keyspace, which must exist";
    }
    return failure instanceof InvalidKeyspaceException
        ? "does not exist. Create it, or correct readingsUrl"
        : null;
  }

  private static @Nullable String fewOrSlow(Throwable failure) {
    if (failure instanceof UnavailableException few) {
      return String.format(
          Locale.ROOT,
          "has too few nodes up: %d of the %d that must answer. Start the others",
          few.getAlive(),
          few.getRequired());
    }
    if (failure instanceof InvalidQueryException
        && String.valueOf(failure.getMessage()).contains("not exist")) {
      return "has nodes that do not know its tables yet. If that lasts, look at nodetool"
          + " describecluster";
    }
    return failure instanceof QueryConsistencyException
            || failure instanceof OverloadedException
            || failure instanceof DriverTimeoutException
        ? "did not answer in time. Look whether enough of its nodes work"
        : null;
  }

  private static @Nullable String away(Throwable failure) {
    return failure instanceof NoNodeAvailableException
            || failure instanceof ClosedConnectionException
            || failure instanceof HeartbeatException
            || failure instanceof IOException
        ? "does not answer"
        : null;
  }

  private static String firstLine(Throwable failure) {
    String message = failure.getMessage();
    return message == null
        ? failure.getClass().getSimpleName()
        : message.lines().findFirst().orElse(message);
  }
}
