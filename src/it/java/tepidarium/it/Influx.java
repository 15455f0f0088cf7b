package tepidarium.it;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import tepidarium.series.influx.InfluxAddress;

/** A real InfluxDB server: Debian's influxd, on free loopback ports. */
public final class Influx implements AutoCloseable {
  private final Path folder;
  private final int port = Ports.free();
  private final int backupPort = Ports.free();
  private final Api api = new Api("http://127.0.0.1:" + port);
  private final String login;
  private final ServerProcess server;

  /**
   * @param login what each call to it ends with, to log in as its administrator; empty for none
   */
  private Influx(Path folder, String login) {
    this.folder = folder;
    this.login = login;
    List<String> arguments = List.of("-config", folder.resolve("influxdb.conf").toString());
    this.server =
        new ServerProcess(
            Command.of("/usr/bin/influxd", "influxdb", arguments), folder.resolve("influxd.log"));
  }

  /** One that is not started yet, with its files in the folder. */
  public static Influx prepared(Path folder) {
    Influx influx = new Influx(folder, "");
    influx.configure();
    return influx;
  }

  /** One that answers. */
  public static Influx started(Path folder) {
    Influx influx = prepared(folder);
    influx.start();
    return influx;
  }

  /** One that answers only to those who log in, with its first user made. */
  public static Influx withLogin(Path folder, String user, String password) {
    Influx influx = new Influx(folder, "&u=" + user + "&p=" + password);
    influx.configure();
    influx.start();
    influx.run("", "CREATE USER " + user + " WITH PASSWORD '" + password + "' WITH ALL PRIVILEGES");
    return influx;
  }

  private void configure() {
    List<String> lines =
        List.of(
            "reporting-disabled = true",
            "bind-address = \"127.0.0.1:" + backupPort + '"',
            "[meta]",
            "dir = \"" + folder.resolve("meta") + '"',
            "[data]",
            "dir = \"" + folder.resolve("data") + '"',
            "wal-dir = \"" + folder.resolve("wal") + '"',
            "[monitor]",
            "store-enabled = false",
            "[http]",
            "bind-address = \"127.0.0.1:" + port + '"',
            "log-enabled = false",
            "auth-enabled = " + !login.isEmpty(),
            "[logging]",
            "level = \"warn\"");
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve("influxdb.conf"), lines);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Starts it, on the same ports each time. */
  public void start() {
    server.start(this::answers);
  }

  private boolean answers() {
    try {
      return api.call("GET", "/ping", null).status() == 204;
    } catch (UncheckedIOException e) {
      return false;
    }
  }

  /** Where it is, with a database of that name. */
  public InfluxAddress address(String database) {
    return new InfluxAddress(api.base(), database, null, null, null);
  }

  /** Runs a statement, as any other program may; its JSON answer. */
  public JsonNode run(String database, String statement) {
    String query =
        "db=" + database + "&q=" + URLEncoder.encode(statement, StandardCharsets.UTF_8) + login;
    return api.post("/query?" + query, "").get("results").get(0);
  }

  /** Writes lines with times in milliseconds, as any other program may. */
  public void write(String database, String lines) {
    Api.Answer answer = api.call("POST", "/write?precision=ms&db=" + database + login, lines);
    if (answer.status() != 204) {
      throw new AssertionError(answer.status() + ": " + answer.text());
    }
  }

  /** How many values of a field it holds. */
  public long count(String database, String field) {
    JsonNode result = run(database, "SELECT count(\"" + field + "\") FROM reading");
    JsonNode series = result.get("series");
    return series == null ? 0 : series.get(0).get("values").get(0).get(1).longValue();
  }

  /** Stops it in order. */
  public void stop() {
    server.stop();
  }

  /** Kills it, as a power cut would. */
  public void kill() {
    server.kill();
  }

  @Override
  public void close() {
    kill();
  }
}
