package tepidarium.web.system;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.IntakeCounts;

/** Provides the API with the version, setup, health and counters of the service. */
public interface ServiceInfo {
  /** The state of a part of the service. */
  record Part(String status, String detail) {
    public static Part up(String detail) {
      return new Part("up", detail);
    }

    public static Part down(String detail) {
      return new Part("down", detail);
    }

    /** Not yet up, because the service is starting. */
    public static Part starting(String detail) {
      return new Part("starting", detail);
    }

    boolean isUp() {
      return "up".equals(status);
    }
  }

  /**
   * How a sensor reaches the broker.
   *
   * @param anonymous where sensors need no account: {@code never}, {@code loopback} or {@code
   *     everywhere}; null if the broker is not part of this service
   */
  record Mqtt(
      boolean embedded,
      List<String> hosts,
      int port,
      String rootTopic,
      @Nullable String anonymous) {}

  /** Values that do not change while the service runs. */
  record Setup(boolean demo, String timeZone, double maxGapMinutes, Mqtt mqtt) {}

  /**
   * The space of the data folder.
   *
   * @param usedBytes size of all files in it
   * @param freeBytes free space on its disk
   * @param secondsUntilFull seconds until the disk is full at the present growth; infinite if the
   *     folder does not grow; null if it is not known yet
   */
  record Disk(long usedBytes, long freeBytes, @Nullable Double secondsUntilFull) {}

  String version();

  Setup setup();

  /** Each part by its name. */
  Map<String, Part> parts();

  IntakeCounts counts();

  /** The space, at most a minute old; 0 where it cannot be read. */
  Disk disk();

  /** Why only a restart of the process can help; null if it is not needed. */
  @Nullable String fatalProblem();
}
