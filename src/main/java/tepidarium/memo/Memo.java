package tepidarium.memo;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Remembers what a function of its question alone has answered, as far as the last questions go:
 * curves are fitted again only to counts that changed. Safe for use by several threads, of which
 * two may work out the same answer.
 *
 * @param <Q> a question, equal to another only if the answers are
 * @param <A> an answer, which nobody changes
 */
public final class Memo<Q, A> {
  private final Map<Q, A> answers;

  /**
   * One that forgets what was not asked for longest.
   *
   * @param most how many answers it keeps
   */
  public Memo(int most) {
    answers =
        new LinkedHashMap<>(16, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<Q, A> eldest) {
            return size() > most;
          }
        };
  }

  /** The answer, worked out where it is not remembered. */
  public A answer(Q question, Function<Q, A> work) {
    A known = known(question);
    if (known != null) {
      return known;
    }
    A answer = work.apply(question);
    keep(question, answer);
    return answer;
  }

  /** The answer; null where it is not remembered. */
  public @Nullable A known(Q question) {
    synchronized (answers) {
      return answers.get(question);
    }
  }

  public void keep(Q question, A answer) {
    synchronized (answers) {
      answers.put(question, answer);
    }
  }
}
