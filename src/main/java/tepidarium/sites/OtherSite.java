package tepidarium.sites;

import java.net.URI;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Another site of the network.
 *
 * @param addresses one for each machine, or that of a proxy in front of them
 * @param token access token for its API; null if it asks for no login
 */
public record OtherSite(String name, List<URI> addresses, @Nullable String token) {
  private static final Pattern LOOPBACK = Pattern.compile("localhost|\\[::1]|127(\\.\\d{1,3}){3}");

  public OtherSite {
    addresses = List.copyOf(addresses);
  }

  /**
   * Addresses to which the token would go unencrypted over a network; host names are not looked up.
   */
  List<URI> addressesWithOpenToken() {
    return addresses.stream()
        .filter(address -> token != null && "http".equals(address.getScheme()))
        .filter(address -> !LOOPBACK.matcher(address.getHost()).matches())
        .toList();
  }

  /** Leaves out the token, because this text may be printed. */
  @Override
  public String toString() {
    return name + ' ' + addresses;
  }
}
