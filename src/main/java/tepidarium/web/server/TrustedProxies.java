package tepidarium.web.server;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketAddress;
import java.net.UnknownHostException;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpURI;
import org.eclipse.jetty.server.ConnectionMetaData;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.Request;
import org.jspecify.annotations.Nullable;

/**
 * Takes the address of the client from X-Forwarded-For, and whether it uses TLS from
 * X-Forwarded-Proto, if the request comes from a configured reverse proxy. Ignores both headers
 * from any other address, because every client can send them.
 */
final class TrustedProxies implements HttpConfiguration.Customizer {
  private static final Pattern ADDRESS =
      Pattern.compile("\\d{1,3}(\\.\\d{1,3}){3}|[0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*");

  private final Set<InetAddress> proxies = new HashSet<>();

  /**
   * Creates the customizer.
   *
   * @param proxies addresses of the reverse proxies
   */
  TrustedProxies(Collection<String> proxies) {
    for (String proxy : proxies) {
      InetAddress address = address(proxy);
      if (address != null) {
        this.proxies.add(address);
      }
    }
  }

  @Override
  public Request customize(Request request, HttpFields.Mutable headers) {
    SocketAddress peer = request.getConnectionMetaData().getRemoteSocketAddress();
    if (!(peer instanceof InetSocketAddress direct) || !proxies.contains(direct.getAddress())) {
      return request;
    }
    InetAddress client = client(request);
    String scheme = request.getHeaders().get("X-Forwarded-Proto");
    boolean secure = scheme == null ? request.isSecure() : isTls(scheme);
    return new Forwarded(request, client == null ? peer : new InetSocketAddress(client, 0), secure);
  }

  private static boolean isTls(String scheme) {
    return scheme.strip().toLowerCase(Locale.ROOT).equals("https");
  }

  /**
   * The last address of X-Forwarded-For that is not a proxy's: each proxy appends the address that
   * it saw, and a client can send addresses of its own before it.
   */
  private @Nullable InetAddress client(Request request) {
    List<String> hops = request.getHeaders().getCSV("X-Forwarded-For", false);
    for (int i = hops.size() - 1; i >= 0; i--) {
      InetAddress hop = address(hops.get(i).strip());
      if (hop == null || !proxies.contains(hop)) {
        return hop;
      }
    }
    return null;
  }

  private static @Nullable InetAddress address(String text) {
    if (!ADDRESS.matcher(text).matches()) {
      return null;
    }
    try {
      return InetAddress.getByName(text);
    } catch (UnknownHostException e) {
      return null;
    }
  }

  /** A request as the proxy received it. */
  private static final class Forwarded extends Request.Wrapper {
    private final ConnectionMetaData connection;
    private final HttpURI uri;
    private final boolean secure;

    Forwarded(Request request, SocketAddress client, boolean secure) {
      super(request);
      this.secure = secure;
      uri = HttpURI.build(request.getHttpURI()).scheme(secure ? "https" : "http").asImmutable();
      connection =
          new ConnectionMetaData.Wrapper(request.getConnectionMetaData()) {
            @Override
            public SocketAddress getRemoteSocketAddress() {
              return client;
            }

            @Override
            public boolean isSecure() {
              return secure;
            }
          };
    }

    @Override
    public ConnectionMetaData getConnectionMetaData() {
      return connection;
    }

    @Override
    public HttpURI getHttpURI() {
      return uri;
    }

    @Override
    public boolean isSecure() {
      return secure;
    }
  }
}
