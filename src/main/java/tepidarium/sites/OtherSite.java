package tepidarium.sites;

import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Another site of the network.
 *
 * @param addresses one for each machine, or that of a proxy in front of them
 * @param token access token for its API; null if it asks for no login
 */
public record OtherSite(String name, List<URI> addresses, @Nullable String token) {
  public OtherSite {
    addresses = List.copyOf(addresses);
  }

  /** Leaves out the token, because this text may be printed. */
  @Override
  public String toString() {
    return name + ' ' + addresses;
  }
}
