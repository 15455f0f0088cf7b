package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Two PostgreSQL servers under Patroni, with one etcd: Debian's packages, and the settings of the
 * page about PostgreSQL. Each server is in a network of its own with three cables: to those who use
 * it, to etcd, and to the other server. Needs root.
 */
public final class Patroni implements AutoCloseable {
  private static final Path PAGE = Path.of("src/docs/postgresql.md");
  private static final Duration SOON = Duration.ofMinutes(2);
  private static final String ADMINISTRATOR = "postgres";
  private static final String PASSWORD = "a password";
  private static final int PORT = 5432;
  private static final int FIRST_USERS = 10;
  private static final int FIRST_ETCD = 20;
  private static final int SERVERS = 30;

  private final Path folder;
  private final int etcdPort = Ports.free();
  private final List<SeparateNetwork> networks = new ArrayList<>();
  private final List<Cable> etcdCables = new ArrayList<>();
  private final Cable betweenServers;
  private final ServerProcess etcd;
  private final List<Node> nodes;

  /** The node that is asked first, so that a question does not wait for a frozen one. */
  private volatile int first = 1;

  private Patroni() throws IOException {
    folder = Files.createTempDirectory("tepidarium-patroni");
    Postgres.give(folder);
    for (int node = 1; node <= 2; node++) {
      SeparateNetwork network = SeparateNetwork.made(FIRST_USERS + node);
      networks.add(network);
      etcdCables.add(Cable.to(network, FIRST_ETCD + node));
    }
    betweenServers = Cable.between(networks.get(0), networks.get(1), SERVERS);
    // Patroni uses the address that etcd tells, which is one.
    String etcdHost = etcdCables.get(0).host(1);
    networks.get(1).ip("route", "add", etcdHost, "via", etcdCables.get(1).host(1));
    String peers = "http://127.0.0.1:" + Ports.free();
    String clients = "http://" + etcdHost + ':' + etcdPort;
    etcd =
        new ServerProcess(
            Command.of(
                "/usr/bin/etcd",
                "etcd-server",
                List.of(
                    "--name=etcd",
                    "--enable-v2=true",
                    "--data-dir=" + folder.resolve("etcd"),
                    "--listen-client-urls=" + clients,
                    "--advertise-client-urls=" + clients,
                    "--listen-peer-urls=" + peers,
                    "--initial-advertise-peer-urls=" + peers,
                    "--initial-cluster=etcd=" + peers)),
            folder.resolve("etcd.log"));
    nodes = List.of(new Node(1), new Node(2));
  }

  /** A leader and a standby that has every confirmed change, with the user of the service. */
  public static Patroni started() {
    try {
      Patroni patroni = new Patroni();
      try {
        patroni.etcd.start(patroni::etcdAnswers);
        patroni.start(1);
        patroni.start(2);
        patroni.awaitStandby();
        patroni.run(
            ADMINISTRATOR,
            "CREATE USER " + Postgres.USER + " PASSWORD '" + Postgres.PASSWORD + "'");
        return patroni;
      } catch (RuntimeException | AssertionError e) {
        patroni.close();
        throw e;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private boolean etcdAnswers() {
    return Ports.answers(etcdCables.get(0).host(1), etcdPort);
  }

  /** Waits until there is a leader and its standby confirms each change. */
  public void awaitStandby() {
    await("a synchronous standby")
        .atMost(SOON)
        .ignoreExceptions()
        .until(
            () -> ask(ADMINISTRATOR, "SELECT sync_state FROM pg_stat_replication").equals("sync"));
  }

  /** Starts Patroni on a node, 1 or 2; it starts PostgreSQL. */
  public void start(int node) {
    Node one = nodes.get(node - 1);
    one.server.start(() -> Ports.answers(one.host(), PORT));
  }

  /** The node that takes changes, 1 or 2; none for a while after the leader was lost. */
  public Optional<Integer> leader() {
    return IntStream.of(first, 3 - first).boxed().filter(this::leads).findFirst();
  }

  /** Whether a node takes changes. */
  public boolean leads(int node) {
    return nodes.get(node - 1).leads();
  }

  /** Whether the commits of a node wait for a standby. */
  public boolean waits(int node) {
    return !ask(node, ADMINISTRATOR, "SHOW synchronous_standby_names").isEmpty();
  }

  /** Ends Patroni and PostgreSQL of a node at once, as a power cut would. */
  public void kill(int node) {
    first = 3 - node;
    nodes.get(node - 1).kill();
  }

  /** Stops Patroni and PostgreSQL of a node where they are. */
  public void freeze(int node) {
    first = 3 - node;
    nodes.get(node - 1).signal("STOP");
  }

  /** Lets them go on. */
  public void thaw(int node) {
    nodes.get(node - 1).signal("CONT");
  }

  /** From now on no packet passes between the two servers. */
  public void cutStandby() {
    betweenServers.cut();
  }

  /** Packets pass between them again. */
  public void joinStandby() {
    betweenServers.join();
  }

  /** From now on no packet passes between a node and etcd, nor between it and the other node. */
  public void isolate(int node) {
    first = 3 - node;
    betweenServers.cut();
    etcdCables.get(node - 1).cut();
  }

  /** Packets pass again. */
  public void rejoin(int node) {
    etcdCables.get(node - 1).join();
    betweenServers.join();
  }

  /** Both servers, as they stand in the address of a database. */
  public String servers() {
    return nodes.get(0).address() + ',' + nodes.get(1).address();
  }

  /** Creates an empty database that belongs to the user of the service. */
  public void create(String database) {
    run(ADMINISTRATOR, "CREATE DATABASE " + database + " OWNER " + Postgres.USER);
  }

  private void run(String database, String sql) {
    try (Connection connection = connect(servers(), database, "primary");
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException e) {
      throw new AssertionError(sql, e);
    }
  }

  /**
   * Asks the leader; the first column of the first row, empty if there is none.
   *
   * @throws AssertionError if nobody leads
   */
  public String ask(String database, String sql) {
    Node asked = nodes.get(first - 1);
    Node other = nodes.get(2 - first);
    return ask(asked.address() + ',' + other.address(), database, "primary", sql);
  }

  /** Asks one node, leader or not. */
  public String ask(int node, String database, String sql) {
    return ask(nodes.get(node - 1).address(), database, "any", sql);
  }

  private static String ask(String servers, String database, String type, String sql) {
    try (Connection connection = connect(servers, database, type);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(sql)) {
      return row.next() ? String.valueOf(row.getString(1)) : "";
    } catch (SQLException e) {
      throw new AssertionError(sql, e);
    }
  }

  private static Connection connect(String servers, String database, String type)
      throws SQLException {
    return DriverManager.getConnection(
        "jdbc:postgresql://"
            + servers
            + '/'
            + database
            + "?connectTimeout=1&socketTimeout=2&sslmode=disable&hostRecheckSeconds=0"
            + "&targetServerType="
            + type,
        ADMINISTRATOR,
        PASSWORD);
  }

  @Override
  public void close() {
    nodes.forEach(Node::kill);
    etcd.kill();
    betweenServers.close();
    etcdCables.forEach(Cable::close);
    networks.forEach(SeparateNetwork::close);
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One machine with Patroni and its PostgreSQL. */
  private final class Node {
    private final int number;
    private final Path data;
    private final ServerProcess server;

    Node(int number) throws IOException {
      this.number = number;
      data = folder.resolve("data-" + number);
      Path settings = Files.writeString(folder.resolve("patroni-" + number + ".yml"), settings());
      Postgres.give(settings);
      Path log = Files.createFile(folder.resolve("patroni-" + number + ".log"));
      List<String> command = new ArrayList<>(networks.get(number - 1).prefix());
      command.addAll(Postgres.asSystemUser());
      command.addAll(Command.of("/usr/bin/patroni", "patroni", List.of(settings.toString())));
      server = new ServerProcess(command, log);
    }

    /** The example of the page, with the addresses of this node. */
    private String settings() throws IOException {
      String page = Files.readString(PAGE);
      int begin = page.indexOf("scope: tepidarium");
      return page.substring(begin, page.indexOf("```", begin))
          .replace("name: db-1", "name: db-" + number)
          .replaceAll(
              "hosts: \\[.*]", "hosts: [\"" + etcdCables.get(0).host(1) + ':' + etcdPort + "\"]")
          .replace("db-1.example.org", betweenServers.host(number))
          .replace("10.0.0.0/24", "10.213.0.0/16")
          .replace("/var/lib/postgresql/15/tepidarium", data.toString())
          .replace("/var/lib/postgresql/15/patroni.pgpass", data + ".pgpass")
          .replace("/usr/lib/postgresql/15", Postgres.newest().toString())
          .replace(
              "      parameters:\n", "      parameters:\n        unix_socket_directories: ''\n");
    }

    String host() {
      return networks.get(number - 1).cable().host();
    }

    /** Where those who use it reach it. */
    String address() {
      return host() + ':' + PORT;
    }

    boolean leads() {
      try (Connection connection = connect(address(), ADMINISTRATOR, "primary")) {
        return connection.isValid(1);
      } catch (SQLException e) {
        return false;
      }
    }

    /** PostgreSQL is no child of Patroni. The file stays when PostgreSQL is killed. */
    private List<ProcessHandle> postgres() {
      Path id = data.resolve("postmaster.pid");
      try (Stream<String> lines = Files.exists(id) ? Files.lines(id) : Stream.empty()) {
        return lines
            .findFirst()
            .flatMap(line -> ProcessHandle.of(Long.parseLong(line.strip())))
            .filter(this::isOurs)
            .stream()
            .flatMap(main -> Stream.concat(Stream.of(main), main.descendants()))
            .toList();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    /** Whether a process is the server of this node, and not a later one with the same number. */
    private boolean isOurs(ProcessHandle process) {
      return process.info().commandLine().orElse("").contains(data.toString());
    }

    void kill() {
      List<ProcessHandle> postgres = postgres();
      server.kill();
      postgres.forEach(ProcessHandle::destroyForcibly);
      postgres.forEach(one -> one.onExit().join());
    }

    void signal(String name) {
      server.signal(name);
      postgres().forEach(one -> ServerProcess.signal(name, one));
    }
  }
}
