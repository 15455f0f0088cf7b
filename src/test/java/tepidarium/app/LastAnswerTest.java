package tepidarium.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import tepidarium.series.StoreException;

class LastAnswerTest {
  private static final UnaryOperator<String> OLD = answer -> answer + ", old";

  private final AtomicInteger questions = new AtomicInteger();
  private final Semaphore answers = new Semaphore(0);

  private String question() {
    int number = questions.incrementAndGet();
    answers.acquireUninterruptibly();
    if (number == 3) {
      throw new StoreException("no", new IllegalStateException());
    }
    return "answer " + number;
  }

  @Test
  void afterTheLimitTheLastAnswerIsReturnedAndNothingIsAskedTwice() {
    try (LastAnswer<String> last =
        new LastAnswer<>("question", this::question, Duration.ofMillis(1))) {
      assertThrows(StoreException.class, () -> last.get(OLD));
      assertThrows(StoreException.class, () -> last.get(OLD));
      await().until(() -> questions.get() == 1);
      answers.release();
      await().until(() -> get(last).equals("answer 1, old"));
      await().until(() -> questions.get() == 2);
      assertEquals("answer 1, old", last.get(OLD));
      assertEquals(2, questions.get());
      answers.release();
      await().until(() -> get(last).equals("answer 2, old"));
      // A failure is told to those who wait for it, and the next one asks again.
      answers.release();
      await().until(() -> !get(last).isEmpty() && questions.get() == 4);
      assertEquals("answer 2, old", last.get(OLD));
      answers.release(1_000);
    }
  }

  private static String get(LastAnswer<String> last) {
    try {
      return last.get(OLD);
    } catch (StoreException e) {
      return "";
    }
  }

  @Test
  void aFailureIsToldToThoseWhoWait() {
    try (LastAnswer<String> last =
        new LastAnswer<>("question", this::question, Duration.ofMinutes(1))) {
      answers.release(4);
      assertEquals("answer 1", last.get(OLD));
      assertEquals("answer 2", last.get(OLD));
      assertThrows(StoreException.class, () -> last.get(OLD));
      assertEquals("answer 4", last.get(OLD));
    }
  }
}
