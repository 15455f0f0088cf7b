package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A network namespace of its own, joined with the one of this process by a cable that can be cut.
 * Needs root. The namespace ends with it.
 */
public final class SeparateNetwork implements AutoCloseable {
  private final Process holder;
  private final Cable cable;

  private SeparateNetwork(int number) {
    if (!"root".equals(System.getProperty("user.name"))) {
      throw new AssertionError("a network of its own needs root; run the long form as root");
    }
    try {
      Path ours = Path.of("/proc/self/ns/net");
      // It ends when its input does, so with this process too.
      holder =
          new ProcessBuilder(Command.of("/usr/bin/unshare", "util-linux", List.of("--net", "cat")))
              .start();
      try {
        await().until(() -> !Files.readSymbolicLink(ours).equals(Files.readSymbolicLink(theirs())));
        ip("link", "set", "lo", "up");
        cable = Cable.to(this, number);
      } catch (RuntimeException | AssertionError e) {
        holder.destroyForcibly();
        throw e;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Makes one whose cable carries packets.
   *
   * @param number the number of its cable, from 1 to 250, another one for each that exists at a
   *     time
   */
  public static SeparateNetwork made(int number) {
    return new SeparateNetwork(number);
  }

  private Path theirs() {
    return Path.of("/proc/" + holder.pid() + "/ns/net");
  }

  /** The process that holds the namespace. */
  long pid() {
    return holder.pid();
  }

  /** The cable to the network of this process. */
  public Cable cable() {
    return cable;
  }

  /** How a command begins that runs inside. */
  List<String> prefix() {
    return Command.of("/usr/bin/nsenter", "util-linux", List.of("--net=" + theirs()));
  }

  /** Changes the network inside. */
  void ip(String... arguments) {
    List<String> command = new ArrayList<>(prefix());
    command.addAll(Command.of("/usr/sbin/ip", "iproute2", List.of(arguments)));
    Command.succeed(command);
  }

  @Override
  public void close() {
    cable.close();
    holder.destroyForcibly();
    ServerProcess.awaitEnd(holder);
  }
}
