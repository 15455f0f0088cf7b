package tepidarium.web.system;

import java.util.List;
import java.util.Map;
import tepidarium.ingest.IntakeCounts;

/** What the pages may ask of the service as a whole; answered by whoever wires it. */
public interface ServiceFacts {
  /** A part and how it is. */
  record Part(String status, String detail) {
    public static Part up(String detail) {
      return new Part("up", detail);
    }

    public static Part down(String detail) {
      return new Part("down", detail);
    }

    /** Not up yet, since the service has only just started. */
    public static Part starting(String detail) {
      return new Part("starting", detail);
    }

    boolean isUp() {
      return "up".equals(status);
    }
  }

  /** How a sensor reaches the broker. */
  record Mqtt(boolean embedded, List<String> hosts, int port, String rootTopic) {}

  /** What does not change while the service runs. */
  record Setup(boolean demo, String timeZone, double maxGapMinutes, Mqtt mqtt) {}

  String version();

  Setup setup();

  /** Each part by its name. */
  Map<String, Part> parts();

  IntakeCounts counts();
}
