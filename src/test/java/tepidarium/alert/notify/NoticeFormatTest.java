package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class NoticeFormatTest {
  @Test
  void aListNamesTheNumberOfItemsThatItLeavesOut() {
    List<Integer> items = List.of(1, 2, 3);
    assertEquals(List.of("- 1", "- 2", "- 3"), NoticeFormat.listed(items, 3, one -> "- " + one));
    assertEquals(
        List.of("- 1", "and 2 more; see the page."),
        NoticeFormat.listed(items, 1, one -> "- " + one));
    assertEquals(
        List.of("and 3 more; see the page."), NoticeFormat.listed(items, 0, one -> "- " + one));
    assertEquals(List.of(), NoticeFormat.listed(List.of(), 0, one -> "- " + one));
  }
}
