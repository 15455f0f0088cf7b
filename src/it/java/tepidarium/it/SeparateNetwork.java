package tepidarium.it;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A network namespace of its own, joined with the one of this process by a cable that can be cut:
 * packets are then dropped on both sides, and no connection ends. Needs root. The namespace ends
 * with it.
 */
public final class SeparateNetwork implements AutoCloseable {
  /** The number of the address inside. */
  static final int INSIDE = 2;

  private static final String OTHER_END = "eth0";

  private final String here;
  private final String address;
  private final Process holder;

  private SeparateNetwork(int number) {
    here = "cut" + ProcessHandle.current().pid() % 100_000 + '-' + number;
    address = "10.213." + number + '.';
    if (!"root".equals(System.getProperty("user.name"))) {
      throw new AssertionError("a network of its own needs root; run the long form as root");
    }
    try {
      Path ours = Path.of("/proc/self/ns/net");
      holder =
          new ProcessBuilder(
                  Command.of(
                      "/usr/bin/unshare", "util-linux", List.of("--net", "sleep", "infinity")))
              .start();
      try {
        await().until(() -> !Files.readSymbolicLink(ours).equals(Files.readSymbolicLink(theirs())));
      } catch (RuntimeException e) {
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
   * @param number from 1 to 250, another one for each that exists at a time
   */
  public static SeparateNetwork made(int number) {
    SeparateNetwork network = new SeparateNetwork(number);
    try {
      network.lay();
      return network;
    } catch (AssertionError e) {
      network.close();
      throw e;
    }
  }

  private void lay() {
    String peer = String.valueOf(holder.pid());
    ip("link", "add", here, "type", "veth", "peer", OTHER_END, "netns", peer);
    ip("addr", "add", host(1) + "/24", "dev", here);
    ip("addr", "add", host(3) + "/24", "dev", here);
    ip("link", "set", here, "up");
    inside("/usr/sbin/ip", "addr", "add", host() + "/24", "dev", OTHER_END);
    inside("/usr/sbin/ip", "link", "set", OTHER_END, "up");
    inside("/usr/sbin/ip", "link", "set", "lo", "up");
  }

  private Path theirs() {
    return Path.of("/proc/" + holder.pid() + "/ns/net");
  }

  /** The address of servers inside. */
  public String host() {
    return host(INSIDE);
  }

  /** One of three addresses of this network: 2 is inside, 1 and 3 are those of this process. */
  String host(int number) {
    return address + number;
  }

  /** How a command begins that runs inside. */
  List<String> prefix() {
    return Command.of("/usr/bin/nsenter", "util-linux", List.of("--net=" + theirs()));
  }

  /** From now on no packet passes. */
  public void cut() {
    // A queue without room for a packet.
    run(List.of("/usr/sbin/tc", "qdisc", "add", "dev", here, "root", "pfifo", "limit", "0"));
    inside("/usr/sbin/tc", "qdisc", "add", "dev", OTHER_END, "root", "pfifo", "limit", "0");
  }

  /** Packets pass again. */
  public void join() {
    run(List.of("/usr/sbin/tc", "qdisc", "del", "dev", here, "root"));
    inside("/usr/sbin/tc", "qdisc", "del", "dev", OTHER_END, "root");
  }

  private void ip(String... arguments) {
    run(Command.of("/usr/sbin/ip", "iproute2", List.of(arguments)));
  }

  private void inside(String... command) {
    List<String> all = new ArrayList<>(prefix());
    all.addAll(List.of(command));
    run(all);
  }

  private static void run(List<String> command) {
    Command.Ended ended = Command.run(command, new byte[0]);
    if (ended.status() != 0) {
      throw new AssertionError(command + " failed: " + ended.output());
    }
  }

  @Override
  public void close() {
    // The kernel would remove it some time after the network, and its name is needed again.
    Command.run(Command.of("/usr/sbin/ip", "iproute2", List.of("link", "del", here)), new byte[0]);
    holder.destroyForcibly();
    ServerProcess.awaitEnd(holder);
  }
}
