package tepidarium.web.server;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import java.util.function.Consumer;

/** Serves some routes on a free loopback port, with the answers of the service to failures. */
public final class RouteServer {
  private RouteServer() {}

  public static Javalin start(Consumer<JavalinConfig> routes) {
    Javalin server =
        Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              routes.accept(config);
              Failures.add(config);
            });
    return server.start("127.0.0.1", 0);
  }
}
