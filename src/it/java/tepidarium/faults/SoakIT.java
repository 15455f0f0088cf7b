package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.bench.soak.Plan;
import tepidarium.bench.soak.Soak;

/** The short form of the simulated years: five days with a leap day and a change of the clocks. */
class SoakIT {
  @Test
  void fiveDaysStayWithinTheBounds(@TempDir Path folder) throws IOException {
    assertEquals(List.of(), Soak.run(folder.resolve("data"), Plan.FIVE_DAYS, System.out));
  }
}
