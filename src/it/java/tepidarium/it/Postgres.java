package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.postgres.PostgresAddress;

/**
 * A real PostgreSQL server: Debian's, on a free loopback port, with a folder of its own. Started by
 * root, it runs as the user postgres, because it refuses root.
 */
public final class Postgres implements AutoCloseable {
  /** The user of the service, owner of each database, and its password. */
  public static final String USER = "tepidarium";

  public static final String PASSWORD = "not so secret";

  private static final String SYSTEM_USER = "postgres";
  private static final String PACKAGE = "postgresql";
  private static final Path VERSIONS = Path.of("/usr/lib/postgresql");

  private final Path folder;
  private final Path data;
  private final int port = Ports.free();
  private final String host;
  private final ServerProcess server;

  private Postgres(Path folder, Path data, @Nullable SeparateNetwork network) {
    this.folder = folder;
    this.data = data;
    this.host = network == null ? "127.0.0.1" : network.cable().host();
    List<String> command = new ArrayList<>(network == null ? List.of() : network.prefix());
    command.addAll(asUser("postgres", List.of("-D", data.toString())));
    this.server = new ServerProcess(command, folder.resolve("postgres.log"));
  }

  /** One that answers, with the user of the service. */
  public static Postgres started(String... more) {
    return started(null, more);
  }

  /** The same in another network, on all of its addresses. */
  public static Postgres started(@Nullable SeparateNetwork network, String... more) {
    Postgres postgres = prepared(network, more);
    postgres.start();
    postgres.run(
        SYSTEM_USER, "CREATE USER " + USER + " PASSWORD '" + PASSWORD + "' CREATEDB REPLICATION");
    return postgres;
  }

  /** One that is not started yet. */
  private static Postgres prepared(@Nullable SeparateNetwork network, String... more) {
    Postgres postgres = inNewFolder(network);
    try {
      Path password = Files.writeString(postgres.folder.resolve("password"), PASSWORD);
      give(password);
      run(
          "initdb",
          List.of(
              "--pgdata=" + postgres.data,
              "--auth=scram-sha-256",
              "--username=" + SYSTEM_USER,
              "--pwfile=" + password,
              "--locale=C.UTF-8",
              "--encoding=UTF8",
              "--no-sync"));
      List<String> lines =
          new ArrayList<>(
              List.of(
                  "listen_addresses = '" + (network == null ? postgres.host : "*") + "'",
                  "port = " + postgres.port,
                  "unix_socket_directories = ''",
                  "shared_buffers = 16MB",
                  "max_connections = 30"));
      lines.addAll(List.of(more));
      postgres.configure(lines);
      // The test's own questions need no password, whose check takes longer than the question.
      Path access = postgres.data.resolve("pg_hba.conf");
      String trusted =
          "host all %1$s samenet trust\nhost all all samenet scram-sha-256\n"
              .formatted(SYSTEM_USER);
      Files.writeString(access, trusted + Files.readString(access));
      return postgres;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Postgres inNewFolder(@Nullable SeparateNetwork network) {
    try {
      Path folder = Files.createTempDirectory("tepidarium-postgres");
      give(folder);
      return new Postgres(folder, folder.resolve("data"), network);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void configure(List<String> lines) throws IOException {
    Files.write(data.resolve("postgresql.conf"), lines, StandardOpenOption.APPEND);
  }

  /** Starts a copy of this server that follows it; this one waits for it at each commit. */
  public Postgres withStandby() {
    Postgres standby = inNewFolder(null);
    run(
        "pg_basebackup",
        List.of(
            "--pgdata=" + standby.data,
            "--write-recovery-conf",
            "--wal-method=stream",
            "--checkpoint=fast",
            "--no-sync",
            "--dbname=postgresql://"
                + SYSTEM_USER
                + ':'
                + URLEncoder.encode(PASSWORD, StandardCharsets.UTF_8).replace("+", "%20")
                + "@127.0.0.1:"
                + port
                + '/'));
    try {
      standby.configure(List.of("port = " + standby.port));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    standby.start();
    run(SYSTEM_USER, "ALTER SYSTEM SET synchronous_standby_names = '*'");
    run(SYSTEM_USER, "SELECT pg_reload_conf()");
    await()
        .until(
            () ->
                ask(SYSTEM_USER, "SELECT sync_state FROM pg_stat_replication")
                    .equals(List.of("sync")));
    return standby;
  }

  /** Lets this standby take changes. */
  public void promote() {
    // The setting for commits came along from the server that it followed.
    run("pg_ctl", List.of("--pgdata=" + data, "promote"));
    run(SYSTEM_USER, "ALTER SYSTEM RESET synchronous_standby_names");
    run(SYSTEM_USER, "SELECT pg_reload_conf()");
  }

  private static boolean isRoot() {
    return "root".equals(System.getProperty("user.name"));
  }

  /** Gives a file to the user as which the server runs. */
  static void give(Path path) throws IOException {
    if (isRoot()) {
      Files.setOwner(
          path,
          path.getFileSystem().getUserPrincipalLookupService().lookupPrincipalByName(SYSTEM_USER));
    }
  }

  private static List<String> asUser(String program, List<String> arguments) {
    List<String> command = new ArrayList<>(asSystemUser());
    command.addAll(Command.of(newest() + "/bin/" + program, PACKAGE, arguments));
    return command;
  }

  /** How a command begins that runs as the user of the server; empty for another user than root. */
  static List<String> asSystemUser() {
    return isRoot()
        ? Command.of(
            "/usr/bin/setpriv",
            "util-linux",
            List.of("--reuid=" + SYSTEM_USER, "--regid=" + SYSTEM_USER, "--clear-groups"))
        : List.of();
  }

  /** The folder of the newest version that is installed. */
  static Path newest() {
    try (Stream<Path> versions = Files.list(VERSIONS)) {
      return versions
          .max(Comparator.comparing(path -> Integer.parseInt(path.getFileName().toString())))
          .orElseThrow();
    } catch (IOException e) {
      throw new AssertionError(VERSIONS + " is missing: install the Debian package " + PACKAGE, e);
    }
  }

  /** Starts it, on the same port each time. */
  public void start() {
    server.start(this::answers);
  }

  private boolean answers() {
    try (Connection connection = connect(SYSTEM_USER)) {
      return connection.isValid(1);
    } catch (SQLException e) {
      return false;
    }
  }

  private Connection connect(String database) throws SQLException {
    return DriverManager.getConnection(
        "jdbc:postgresql://" + host + ':' + port + '/' + database, SYSTEM_USER, PASSWORD);
  }

  /** The address to reach it from this process. */
  public String host() {
    return host;
  }

  public int port() {
    return port;
  }

  /** Creates an empty database that belongs to the user of the service. */
  public PostgresAddress create(String database) {
    return create(database, "template1");
  }

  /** Creates a copy of a database that nobody uses. */
  public PostgresAddress create(String database, String template) {
    run(SYSTEM_USER, "CREATE DATABASE " + database + " OWNER " + USER + " TEMPLATE " + template);
    return address(database);
  }

  /**
   * Moves a database that nobody uses to another disk.
   *
   * @param folder an empty folder that the server's user can reach and becomes the owner of
   */
  public void move(String database, Path folder) {
    try {
      give(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    run(SYSTEM_USER, "CREATE TABLESPACE other LOCATION '" + folder + "'");
    run(SYSTEM_USER, "ALTER DATABASE " + database + " SET TABLESPACE other");
  }

  public PostgresAddress address(String database) {
    return PostgresAddress.of("records", url(database), USER, PASSWORD);
  }

  /**
   * The environment of a service process with a part of its data in a database.
   *
   * @param part {@code RECORDS} or {@code READINGS}
   */
  public static Map<String, String> environment(String part, String url) {
    String name = "TEPIDARIUM_" + part;
    return Map.of(name + "_URL", url, name + "_USER", USER, name + "_PASSWORD", PASSWORD);
  }

  /** The environment of one of two services with records and readings in a database. */
  public static Map<String, String> environment(String url, boolean standby) {
    Map<String, String> all = new HashMap<>(environment("RECORDS", url));
    all.putAll(environment("READINGS", url));
    all.put("TEPIDARIUM_STANDBY", String.valueOf(standby));
    return all;
  }

  /** The settings of a service with its records in a database. */
  public static Map<String, String> settings(String url) {
    return Map.of("recordsUrl", url, "recordsUser", USER, "recordsPassword", PASSWORD);
  }

  /** The address of a database for readings. */
  public PostgresAddress readings(String database) {
    return PostgresAddress.of("readings", url(database), USER, PASSWORD);
  }

  /** The settings of a service with its readings in a database. */
  public static Map<String, String> readingsSettings(String url) {
    return Map.of("readingsUrl", url, "readingsUser", USER, "readingsPassword", PASSWORD);
  }

  public String url(String database) {
    return "postgresql://" + host + ':' + port + '/' + database;
  }

  /** Runs a statement as the administrator. */
  public void run(String database, String sql) {
    try (Connection connection = connect(database);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException e) {
      throw new AssertionError(sql, e);
    }
  }

  /** Runs a query as the administrator; the first column of every row as text. */
  public List<String> ask(String database, String sql) {
    try (Connection connection = connect(database);
        Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      List<String> answers = new ArrayList<>();
      while (rows.next()) {
        answers.add(String.valueOf(rows.getString(1)));
      }
      return answers;
    } catch (SQLException e) {
      throw new AssertionError(sql, e);
    }
  }

  /** Runs a program of PostgreSQL to its end. */
  private static void run(String program, List<String> arguments) {
    Command.succeed(asUser(program, arguments));
  }

  /** Stops it in order; it ends all connections. */
  public void stop() {
    run("pg_ctl", List.of("--pgdata=" + data, "--mode=fast", "stop"));
    server.stop();
  }

  /** Stops every process of it where it is; nobody learns of it. */
  public void freeze() {
    server.signal("STOP");
  }

  /** Lets it go on. */
  public void thaw() {
    server.signal("CONT");
  }

  /** Kills it, as a power cut would. */
  public void kill() {
    server.kill();
  }

  @Override
  public void close() {
    kill();
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
