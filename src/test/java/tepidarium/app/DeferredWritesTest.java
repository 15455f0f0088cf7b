package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.series.StoreException;
import tepidarium.series.UnknownOutcome;

class DeferredWritesTest {
  private final List<String> stored = new ArrayList<>();
  private boolean away;

  private final DeferredWrites<String> writes =
      new DeferredWrites<>(
          "test",
          3,
          entries -> {
            if (entries.contains("twice")) {
              stored.addAll(entries);
              throw new UnknownOutcome("not confirmed", new IllegalStateException());
            }
            if (away) {
              throw new StoreException("away", new IllegalStateException());
            }
            if (entries.contains("bad")) {
              throw new IllegalArgumentException("as planned");
            }
            stored.addAll(entries);
          });

  @Test
  void theNewestAreWrittenInOrderOnceTheStoreAnswersAgain() {
    away = true;
    writes.add(List.of("a", "b"));
    writes.write();
    writes.add(List.of("c", "d"));
    writes.write();
    assertEquals(List.of(), stored);
    away = false;
    writes.write();
    writes.write();
    assertEquals(List.of("b", "c", "d"), stored);
  }

  @Test
  void whatCanNeverBeWrittenIsDropped() {
    writes.add(List.of("bad"));
    writes.write();
    writes.add(List.of("good"));
    writes.write();
    assertEquals(List.of("good"), stored);
  }

  @Test
  void whatMayBeStoredIsNotWrittenAgain() {
    writes.add(List.of("twice"));
    writes.write();
    writes.write();
    assertEquals(List.of("twice"), stored);
  }

  @Test
  void theStopWritesWhatWaits() {
    writes.start();
    writes.add(List.of("last"));
    writes.close();
    assertEquals(List.of("last"), stored);
  }
}
