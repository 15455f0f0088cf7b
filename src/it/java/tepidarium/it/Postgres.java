package tepidarium.it;

import java.io.IOException;
import java.io.UncheckedIOException;
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
import java.util.List;
import java.util.stream.Stream;
import tepidarium.records.postgres.PostgresAddress;

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
  private final ServerProcess server;

  private Postgres(Path folder, Path data) {
    this.folder = folder;
    this.data = data;
    this.server =
        new ServerProcess(
            asUser("postgres", List.of("-D", data.toString())), folder.resolve("postgres.log"));
  }

  /** One that answers, with the user of the service. */
  public static Postgres started(String... more) {
    Postgres postgres = prepared(more);
    postgres.start();
    postgres.run(
        SYSTEM_USER, "CREATE USER " + USER + " PASSWORD '" + PASSWORD + "' CREATEDB REPLICATION");
    return postgres;
  }

  /** One that is not started yet. */
  private static Postgres prepared(String... more) {
    try {
      Path folder = Files.createTempDirectory("tepidarium-postgres");
      Path data = folder.resolve("data");
      Path password = Files.writeString(folder.resolve("password"), PASSWORD);
      give(folder);
      give(password);
      Postgres postgres = new Postgres(folder, data);
      Command.Ended made =
          Command.run(
              asUser(
                  "initdb",
                  List.of(
                      "--pgdata=" + data,
                      "--auth=scram-sha-256",
                      "--username=" + SYSTEM_USER,
                      "--pwfile=" + password,
                      "--locale=C.UTF-8",
                      "--encoding=UTF8",
                      "--no-sync")),
              new byte[0]);
      if (made.status() != 0) {
        throw new AssertionError(made.output());
      }
      List<String> lines =
          new ArrayList<>(
              List.of(
                  "listen_addresses = '127.0.0.1'",
                  "port = " + postgres.port,
                  "unix_socket_directories = ''",
                  "shared_buffers = 16MB",
                  "max_connections = 30"));
      lines.addAll(List.of(more));
      Files.write(data.resolve("postgresql.conf"), lines, StandardOpenOption.APPEND);
      return postgres;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static boolean isRoot() {
    return "root".equals(System.getProperty("user.name"));
  }

  /** Gives a file to the user as which the server runs. */
  private static void give(Path path) throws IOException {
    if (isRoot()) {
      Files.setOwner(
          path,
          path.getFileSystem().getUserPrincipalLookupService().lookupPrincipalByName(SYSTEM_USER));
    }
  }

  private static List<String> asUser(String program, List<String> arguments) {
    List<String> command = new ArrayList<>();
    if (isRoot()) {
      command.addAll(
          Command.of(
              "/usr/bin/setpriv",
              "util-linux",
              List.of("--reuid=" + SYSTEM_USER, "--regid=" + SYSTEM_USER, "--clear-groups")));
    }
    command.addAll(Command.of(newest() + "/bin/" + program, PACKAGE, arguments));
    return command;
  }

  private static Path newest() {
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
        "jdbc:postgresql://127.0.0.1:" + port + '/' + database, SYSTEM_USER, PASSWORD);
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

  public PostgresAddress address(String database) {
    return PostgresAddress.of(url(database), USER, PASSWORD);
  }

  public String url(String database) {
    return "postgresql://127.0.0.1:" + port + '/' + database;
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

  /** Stops it in order; it ends all connections. */
  public void stop() {
    Command.Ended ended =
        Command.run(
            asUser("pg_ctl", List.of("--pgdata=" + data, "--mode=fast", "stop")), new byte[0]);
    if (ended.status() != 0) {
      throw new AssertionError(ended.output());
    }
    server.stop();
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
