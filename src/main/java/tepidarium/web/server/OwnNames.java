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
 * Decides whether a host name or an origin belongs to this service. A browser that was tricked by
 * DNS rebinding sends the name of the attacker's site in the Host header; a page of another site
 * sends its own address in the Origin header (RFC 6454).
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
   * Remembers the configured names.
   *
   * @param configured names as the user wrote them, each with a port or without
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
   * @param port the port of the request, 80 where it names none
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
    int usual = "https".equals(uri.getScheme()) ? 443 : 80;
    int originPort = uri.getPort() < 0 ? usual : uri.getPort();
    String host = host(originName);
    // A proxy that adds TLS names no port, as the request then has none either.
    boolean samePort = originPort == port || (originPort == usual && port == 80);
    return (samePort && host.equals(host(name)))
        || (originPort == usual && configured.contains(host))
        || configured.contains(host + ':' + originPort);
  }

  /** In lower case, without the brackets of an IPv6 address and the dot that may end a name. */
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

  /** Reads an address; what is written like one is never looked up as a name. */
  private static boolean isOwnAddress(String host) {
    try {
      InetAddress address = InetAddress.getByName(host);
      return address.isLoopbackAddress() || NetworkInterface.getByInetAddress(address) != null;
    } catch (UnknownHostException | SocketException e) {
      return false;
    }
  }

  /** Looked up when first needed, because a broken name service can take seconds to answer. */
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
      // The machine has no name that it can tell; its addresses and the configured names remain.
    }
    return names;
  }
}
