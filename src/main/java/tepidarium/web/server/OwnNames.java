package tepidarium.web.server;

import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.URI;
import java.net.UnknownHostException;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Decides whether a host name or an origin belongs to this service. In a DNS rebinding attack, the
 * browser sends the name of the attacker's site in the Host header. A page of another site sends
 * its own address in the Origin header (RFC 6454).
 *
 * <p>Own names are loopback names and addresses, the machine's name (also below {@code .local},
 * {@code .internal} and {@code .home.arpa}, which nobody can register), the machine's addresses,
 * and the configured names. Thread-safe.
 */
final class OwnNames {
  private static final Pattern IPV4 = Pattern.compile("\\d{1,3}(\\.\\d{1,3}){3}");
  private static final List<String> PRIVATE_SUFFIXES =
      List.of("", ".local", ".internal", ".home.arpa");

  private final Set<String> configured;
  private final Set<String> configuredHosts = new HashSet<>();
  private volatile @Nullable Set<String> machine;

  /**
   * Creates the check.
   *
   * @param configured names from the settings, each with or without a port
   */
  OwnNames(Collection<String> configured) {
    this.configured = new HashSet<>();
    for (String name : configured) {
      String plain = name.toLowerCase(Locale.ROOT);
      this.configured.add(plain);
      configuredHosts.add(host(plain.replaceFirst(":\\d+$", "")));
    }
  }

  /** Whether the host of a request, without its port, is one of this service's names. */
  boolean isOwnHost(String name) {
    String host = host(name);
    if (host.equals("localhost") || host.endsWith(".localhost") || configuredHosts.contains(host)) {
      return true;
    }
    return isAddress(host) ? isOwnAddress(host) : machineNames().contains(host);
  }

  /**
   * Whether a page that names this origin belongs to this service: same host and port as the
   * request, or a configured name.
   *
   * @param origin the Origin header, such as {@code http://192.168.1.5:8080}
   * @param name the host of the request
   * @param port the port of the request; 80 if it has none
   */
  boolean isOwnOrigin(String origin, String name, int port) {
    URI uri;
    try {
      uri = URI.create(origin);
    } catch (IllegalArgumentException e) {
      return false;
    }
    String originName = uri.getHost();
    if (originName == null) {
      return false;
    }
    int defaultPort = "https".equals(uri.getScheme()) ? 443 : 80;
    int originPort = uri.getPort() < 0 ? defaultPort : uri.getPort();
    String host = host(originName);
    // Behind a proxy with TLS, neither the origin nor the request has a port.
    boolean samePort = originPort == port || (originPort == defaultPort && port == 80);
    return (samePort && host.equals(host(name)))
        || (originPort == defaultPort && configured.contains(host))
        || configured.contains(host + ':' + originPort);
  }

  /** Converts to lower case; removes the brackets of an IPv6 address and a final dot. */
  private static String host(String name) {
    String host = name.toLowerCase(Locale.ROOT);
    if (host.startsWith("[") && host.endsWith("]")) {
      return host.substring(1, host.length() - 1);
    }
    return host.endsWith(".") ? host.substring(0, host.length() - 1) : host;
  }

  private static boolean isAddress(String host) {
    return host.indexOf(':') >= 0 || IPV4.matcher(host).matches();
  }

  /** Whether the address belongs to this machine; addresses are not looked up by DNS. */
  private static boolean isOwnAddress(String host) {
    try {
      InetAddress address = InetAddress.getByName(host);
      return address.isLoopbackAddress() || NetworkInterface.getByInetAddress(address) != null;
    } catch (UnknownHostException | SocketException e) {
      return false;
    }
  }

  /**
   * The names of this machine; looked up on first use, because a broken DNS server can take
   * seconds.
   */
  private Set<String> machineNames() {
    Set<String> known = machine;
    if (known == null) {
      known = lookUp();
      machine = known;
    }
    return known;
  }

  private static Set<String> lookUp() {
    Set<String> names = new HashSet<>();
    try {
      InetAddress here = InetAddress.getLocalHost();
      String name = host(here.getHostName());
      names.add(name);
      names.add(host(here.getCanonicalHostName()));
      String first = name.split("\\.", 2)[0];
      PRIVATE_SUFFIXES.forEach(suffix -> names.add(first + suffix));
    } catch (UnknownHostException e) {
      // The machine has no name; its addresses and the configured names still work.
    }
    return names;
  }
}
