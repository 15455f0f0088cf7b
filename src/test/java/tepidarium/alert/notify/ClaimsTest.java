package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.lang.reflect.Proxy;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.series.StoreException;

/** Claims and outcomes while the store is away. */
class ClaimsTest {
  private static final Instant NOW = Instant.parse("2026-03-04T08:00:00Z");
  private static final Duration DAY = Duration.ofHours(24);

  private final List<Delivery> updated = new ArrayList<>();
  private boolean away;
  private final NoticeStore store =
      (NoticeStore)
          Proxy.newProxyInstance(
              NoticeStore.class.getClassLoader(),
              new Class<?>[] {NoticeStore.class},
              (proxy, method, args) -> {
                if (away) {
                  throw new StoreException("away", new IllegalStateException());
                }
                if (method.getName().equals("update")) {
                  updated.add((Delivery) args[0]);
                  return null;
                }
                return method.getName().equals("claim") ? true : null;
              });
  private final Claims claims = new Claims(store, Clock.fixed(NOW, ZoneOffset.UTC));
  private final Delivery delivery =
      Delivery.first(7, new NoticeText(ZoneOffset.UTC, new Units(false), null).test(NOW), "email");

  @Test
  void anOutcomeThatTheStoreDidNotTakeIsStoredOnceLater() {
    claims.claim(delivery);
    DeliveryOutcome outcome = DeliveryOutcome.delivered("taken");
    away = true;
    assertThrows(StoreException.class, () -> claims.confirm(delivery, outcome, DAY));
    assertThrows(StoreException.class, claims::saveUnsaved);
    away = false;
    claims.saveUnsaved();
    claims.saveUnsaved();
    assertEquals(List.of(delivery.after(outcome, NOW, DAY)), updated);
  }

  /** The claim may have been stored although the store did not answer. */
  @Test
  void aDeliveryWhoseClaimGotNoAnswerWaitsAgain() {
    away = true;
    assertThrows(StoreException.class, () -> claims.claim(delivery));
    away = false;
    claims.saveUnsaved();
    assertEquals(List.of(delivery), updated);
  }
}
