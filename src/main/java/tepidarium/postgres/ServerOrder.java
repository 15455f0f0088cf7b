package tepidarium.postgres;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The order in which the servers of a cluster are asked for the one that takes changes: first the
 * one that did so last, at the end those that failed. A frozen server costs seconds at each
 * attempt, and must not do so for each connection. All connections of the process to a cluster
 * share one. Thread-safe.
 */
final class ServerOrder {
  private static final Map<List<PostgresAddress.Server>, ServerOrder> ALL =
      new ConcurrentHashMap<>();

  private List<PostgresAddress.Server> servers;

  ServerOrder(List<PostgresAddress.Server> servers) {
    this.servers = servers;
  }

  static ServerOrder of(List<PostgresAddress.Server> servers) {
    return ALL.computeIfAbsent(servers, ServerOrder::new);
  }

  synchronized List<PostgresAddress.Server> servers() {
    return servers;
  }

  /** This one takes changes. */
  synchronized void first(PostgresAddress.Server server) {
    List<PostgresAddress.Server> others = without(server);
    others.add(0, server);
    servers = List.copyOf(others);
  }

  /** This one does not answer, or takes no changes. */
  synchronized void last(PostgresAddress.Server server) {
    List<PostgresAddress.Server> others = without(server);
    others.add(server);
    servers = List.copyOf(others);
  }

  private List<PostgresAddress.Server> without(PostgresAddress.Server server) {
    List<PostgresAddress.Server> others = new ArrayList<>(servers);
    others.remove(server);
    return others;
  }
}
