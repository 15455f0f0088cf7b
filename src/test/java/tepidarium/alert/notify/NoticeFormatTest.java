package tepidarium.alert.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

class NoticeFormatTest {
  private static final NoticeFormat FORMAT =
      new NoticeFormat(new NoticeWords(Locale.ENGLISH), ZoneOffset.UTC);

  @Test
  void aListNamesTheNumberOfItemsThatItLeavesOut() {
    List<Integer> items = List.of(1, 2, 3);
    assertEquals(List.of("- 1", "- 2", "- 3"), FORMAT.listed(items, 3, one -> "- " + one));
    assertEquals(
        List.of("- 1", "and 2 more; see the page."), FORMAT.listed(items, 1, one -> "- " + one));
    assertEquals(List.of("and 3 more; see the page."), FORMAT.listed(items, 0, one -> "- " + one));
    assertEquals(List.of(), FORMAT.listed(List.of(), 0, one -> "- " + one));
  }
}
