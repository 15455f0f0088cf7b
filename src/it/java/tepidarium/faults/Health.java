package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.util.function.Supplier;
import tepidarium.it.Grower;

/** How soon a service calls itself up. */
final class Health {
  private Health() {}

  static boolean isUp(Grower grower) {
    return grower.api().get("/api/health").get("status").textValue().equals("up");
  }

  /** Waits until the service does not call itself up; one that has ended does not either. */
  static void awaitTrouble(Supplier<Grower> grower) {
    await("the service is in trouble").atMost(Form.SOON).until(() -> !answersUp(grower.get()));
  }

  private static void assertUp(JsonNode health) {
    assertEquals("up", health.get("status").textValue(), health.toString());
  }

  private static boolean answersUp(Grower grower) {
    try {
      return isUp(grower);
    } catch (RuntimeException | AssertionError e) {
      return false;
    }
  }

  /** The time from an instant until the service is up, in seconds. */
  static double secondsUntilUp(Supplier<Grower> grower, long fromNanos) {
    await("the service is healthy")
        .atMost(Form.SOON)
        .pollDelay(Duration.ZERO)
        .pollInterval(Duration.ofMillis(50))
        .ignoreExceptions()
        .untilAsserted(() -> assertUp(grower.get().api().get("/api/health")));
    return (System.nanoTime() - fromNanos) / 1e9;
  }

  /** Waits until so many or more have come in and all of them have come to their end. */
  static Tally settled(Supplier<Grower> grower, long sent) {
    return await("everything has come to its end")
        .atMost(Form.SOON)
        .until(() -> Tally.of(grower.get()), tally -> tally.addsUp() && tally.received() >= sent);
  }

  /** Waits until everything that came in has come to its end; the counts then. */
  static Tally settled(Supplier<Grower> grower) {
    return await("everything has come to its end")
        .atMost(Form.SOON)
        .ignoreExceptions()
        .until(() -> Tally.of(grower.get()), Tally::addsUp);
  }
}
