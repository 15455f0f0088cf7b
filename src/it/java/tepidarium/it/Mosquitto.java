package tepidarium.it;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A broker that we did not write: Debian's mosquitto, on a free loopback port. */
public final class Mosquitto implements AutoCloseable {
  private final Path folder;
  private final int port;
  private final @Nullable SeparateNetwork network;
  private final ServerProcess server;

  private Mosquitto(Path folder, int port, @Nullable SeparateNetwork network) {
    this.folder = folder;
    this.port = port;
    this.network = network;
    List<String> command = new ArrayList<>(network == null ? List.of() : network.prefix());
    List<String> arguments = List.of("-c", folder.resolve("mosquitto.conf").toString());
    command.addAll(Command.of("/usr/sbin/mosquitto", "mosquitto", arguments));
    this.server = new ServerProcess(command, folder.resolve("mosquitto.out"));
  }

  /**
   * One that is not started yet, with its files in the folder.
   *
   * @param more lines of its configuration; they win over the usual ones
   */
  public static Mosquitto prepared(Path folder, String... more) {
    return prepared(folder, null, more);
  }

  private static Mosquitto prepared(
      Path folder, @Nullable SeparateNetwork network, String... more) {
    Mosquitto broker = new Mosquitto(folder, Ports.free(), network);
    broker.configure(List.of(more));
    return broker;
  }

  /** One that takes connections. */
  public static Mosquitto started(Path folder, String... more) {
    Mosquitto broker = prepared(folder, more);
    broker.start();
    return broker;
  }

  /** The same in another network, on all of its addresses. */
  public static Mosquitto started(Path folder, @Nullable SeparateNetwork network) {
    Mosquitto broker = prepared(folder, network);
    broker.start();
    return broker;
  }

  private void configure(List<String> more) {
    // The user: started by root it would become another, who may not write to the folder.
    List<String> lines =
        List.of(
            "listener " + port + (network == null ? " 127.0.0.1" : ""),
            "allow_anonymous true",
            "user " + System.getProperty("user.name"),
            "persistence true",
            "persistence_location " + folder + "/",
            "max_queued_messages 0",
            "log_dest file " + folder.resolve("mosquitto.log"));
    try {
      Files.createDirectories(folder);
      Path file = folder.resolve("mosquitto.conf");
      Files.write(file, lines);
      Files.write(file, more, StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Starts it, on the same port each time. */
  public void start() {
    server.start(() -> Ports.answers(host(), port));
  }

  /** The address to reach it from this process. */
  public String host() {
    return network == null ? "127.0.0.1" : network.cable().host();
  }

  public int port() {
    return port;
  }

  /** Stops it in order; it saves its sessions. */
  public void stop() {
    server.stop();
  }

  /** Kills it; what it had not saved is lost, sessions and subscriptions included. */
  public void kill() {
    server.kill();
  }

  @Override
  public void close() {
    kill();
  }
}
