package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tepidarium.bench.soak.Soak;

/**
 * The short form of the simulated years: five days with a leap day and a change of the clocks. It
 * runs in a process of its own, because it measures the heap and counts the lines of the log.
 */
class SoakIT {
  @Test
  void fiveDaysStayWithinTheBounds() throws Exception {
    Process soak =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx96m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Soak.class.getName(),
                "quick")
            .redirectErrorStream(true)
            .start();
    String words = new String(soak.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, soak.waitFor(), words);
  }
}
