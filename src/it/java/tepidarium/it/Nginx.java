package tepidarium.it;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The system's nginx as a reverse proxy, on a free loopback port. */
public final class Nginx implements AutoCloseable {
  private final ServerProcess process;
  private final String url;

  private Nginx(ServerProcess process, String url) {
    this.process = process;
    this.url = url;
  }

  /**
   * Starts it with the configuration of the documentation.
   *
   * @param location the block {@code location} of its configuration
   */
  public static Nginx start(Path folder, String location) throws IOException {
    Certificates.write(folder, "garden");
    int port = Ports.free();
    return start(
        folder,
        port,
        "https",
        """
        server {
          listen 127.0.0.1:%2$d ssl;
          ssl_certificate %1$s/chain.pem;
          ssl_certificate_key %1$s/key.pem;
          %3$s
        }
        """
            .formatted(folder, port, location));
  }

  /**
   * Starts it in front of two machines, without TLS.
   *
   * @param pair the blocks {@code upstream} and {@code server} of its configuration
   */
  public static Nginx before(Path folder, String pair) throws IOException {
    int port = Ports.free();
    return start(folder, port, "http", pair.replace("listen 80", "listen 127.0.0.1:" + port));
  }

  private static Nginx start(Path folder, int port, String scheme, String blocks)
      throws IOException {
    Path configuration = folder.resolve("nginx.conf");
    Files.writeString(
        configuration,
        """
        daemon off;
        pid %1$s/nginx.pid;
        error_log stderr;
        events {}
        http {
          access_log off;
          client_body_temp_path %1$s/body;
          proxy_temp_path %1$s/proxy;
          fastcgi_temp_path %1$s/fastcgi;
          uwsgi_temp_path %1$s/uwsgi;
          scgi_temp_path %1$s/scgi;
          %2$s
        }
        """
            .formatted(folder, blocks));
    List<String> command =
        Command.of(
            "/usr/sbin/nginx", "nginx", List.of("-e", "stderr", "-c", configuration.toString()));
    ServerProcess process = new ServerProcess(command, folder.resolve("nginx.out"));
    process.start(() -> Ports.answers(port));
    return new Nginx(process, scheme + "://localhost:" + port);
  }

  public String url() {
    return url;
  }

  @Override
  public void close() {
    process.stop();
  }
}
