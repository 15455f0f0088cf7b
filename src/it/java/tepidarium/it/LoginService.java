package tepidarium.it;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.Map;

/**
 * A service in this process that asks for a login.
 *
 * @param password the password that its first start showed on the terminal
 */
public record LoginService(RunningService service, String password) implements AutoCloseable {
  private static final String BEFORE = "password  ";

  /** Starts it on a loopback address, with further settings. */
  public static LoginService start(Path data, Map<String, ?> more) {
    Map<String, Object> settings = new HashMap<>(more);
    settings.put("login", "always");
    PrintStream terminal = System.err;
    ByteArrayOutputStream printed = new ByteArrayOutputStream();
    System.setErr(new PrintStream(printed, true, StandardCharsets.UTF_8));
    try {
      RunningService service =
          RunningService.start(
              RunningService.config(data, "embedded", Ports.free(), settings),
              Clock.tickMillis(ZoneOffset.UTC));
      return new LoginService(service, shown(printed.toString(StandardCharsets.UTF_8)));
    } finally {
      System.setErr(terminal);
    }
  }

  private static String shown(String printed) {
    String[] parts = printed.split(BEFORE, -1);
    if (parts.length != 2) {
      throw new AssertionError("the first start must show one password: " + printed);
    }
    return parts[1].lines().findFirst().orElseThrow();
  }

  public String url() {
    return service.url();
  }

  @Override
  public void close() {
    service.close();
  }
}
