package tepidarium.it;

import java.util.ArrayList;
import java.util.List;

/**
 * A cable between the network of this process and a separate one, or between two separate ones. It
 * can be cut: packets are then dropped at both ends, and no connection ends. Needs root.
 */
public final class Cable implements AutoCloseable {
  /** The address at the end in a separate network; the second one of a cable between two. */
  static final int INSIDE = 2;

  private final String device;
  private final String network;

  /** How a command begins that runs at each end. */
  private final List<List<String>> ends;

  private Cable(int number, List<String> first, List<String> second) {
    device = "cut" + ProcessHandle.current().pid() % 100_000 + '-' + number;
    network = "10.213." + number + '.';
    ends = List.of(first, second);
  }

  /**
   * Lays one from the network of this process.
   *
   * @param number from 1 to 250, another one for each that exists at a time
   */
  public static Cable to(SeparateNetwork network, int number) {
    return lay(number, List.of(), network);
  }

  /** Lays one between two separate networks. */
  static Cable between(SeparateNetwork first, SeparateNetwork second, int number) {
    return lay(number, first.prefix(), second);
  }

  private static Cable lay(int number, List<String> first, SeparateNetwork second) {
    Cable cable = new Cable(number, first, second.prefix());
    String peer = String.valueOf(second.pid());
    cable.run(0, "ip", "link add % type veth peer % netns " + peer);
    cable.run(0, "ip", "addr add " + cable.host(1) + "/24 dev %");
    cable.run(0, "ip", "addr add " + cable.host(3) + "/24 dev %");
    cable.run(1, "ip", "addr add " + cable.host(INSIDE) + "/24 dev %");
    cable.run(0, "ip", "link set % up");
    cable.run(1, "ip", "link set % up");
    return cable;
  }

  /** One of three addresses: 2 is at the end inside, 1 and 3 are at the other one. */
  String host(int number) {
    return network + number;
  }

  /** The address of servers at the end inside. */
  public String host() {
    return host(INSIDE);
  }

  /**
   * From now on no packet passes. The receiving end drops it, as a network does: where the sending
   * end drops it, the kernel knows, tries again each half second, and ends the connection after 8
   * s.
   */
  public void cut() {
    for (int end = 0; end < ends.size(); end++) {
      run(end, "tc", "qdisc add dev % clsact");
      // A program of one instruction, which returns TC_ACT_SHOT.
      run(end, "tc", "filter add dev % ingress bpf direct-action bytecode", "1,6 0 0 2");
    }
  }

  /** Packets pass again. */
  public void join() {
    run(0, "tc", "qdisc del dev % clsact");
    run(1, "tc", "qdisc del dev % clsact");
  }

  private void run(int end, String program, String arguments, String... last) {
    Command.succeed(command(end, program, arguments, last));
  }

  /** A program of iproute2 at one end; % stands for the name of the device there. */
  private List<String> command(int end, String program, String arguments, String... last) {
    List<String> command = new ArrayList<>(ends.get(end));
    List<String> words = new ArrayList<>(List.of(arguments.replace("%", device).split(" ")));
    words.addAll(List.of(last));
    command.addAll(Command.of("/usr/sbin/" + program, "iproute2", words));
    return command;
  }

  @Override
  public void close() {
    // The kernel would remove it some time after the network, and its name is needed again.
    Command.run(command(0, "ip", "link del %"), new byte[0]);
  }
}
