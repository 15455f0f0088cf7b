package tepidarium.app;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Lists the addresses at which other machines reach this one. */
final class LocalHosts {
  private LocalHosts() {}

  /**
   * Returns the addresses at which a sensor can reach the embedded broker, at least one.
   *
   * @param mqttHost address on which the broker listens
   */
  static List<String> of(String mqttHost) {
    if (!mqttHost.equals("0.0.0.0") && !mqttHost.equals("::")) {
      return List.of(mqttHost);
    }
    List<String> hosts = new ArrayList<>();
    try {
      for (NetworkInterface network : Collections.list(NetworkInterface.getNetworkInterfaces())) {
        for (InetAddress address : Collections.list(network.getInetAddresses())) {
          if (address instanceof Inet4Address && !address.isLoopbackAddress()) {
            hosts.add(address.getHostAddress());
          }
        }
      }
    } catch (SocketException e) {
      // Without a network, the loopback address below still works on this machine.
    }
    return hosts.isEmpty() ? List.of("127.0.0.1") : hosts;
  }
}
