package tepidarium.memo;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class MemoTest {
  private final List<Integer> worked = new ArrayList<>();
  private final Memo<Integer, Integer> squares = new Memo<>(2);

  private int square(int number) {
    return squares.answer(
        number,
        asked -> {
          worked.add(asked);
          return asked * asked;
        });
  }

  @Test
  void whatWasAnsweredIsNotWorkedOutAgain() {
    assertEquals(9, square(3));
    assertEquals(9, square(3));
    assertEquals(List.of(3), worked);
  }

  @Test
  void whatWasNotAskedForLongestIsForgotten() {
    square(1);
    square(2);
    square(1);
    square(3);
    square(1);
    assertEquals(List.of(1, 2, 3), worked);
    square(2);
    assertEquals(List.of(1, 2, 3, 2), worked);
  }
}
