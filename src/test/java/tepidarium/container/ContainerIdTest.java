package tepidarium.container;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ContainerIdTest {
  @ParameterizedTest
  @CsvSource({
    "Mango bag 3, mango-bag-3",
    "'  Jürgens  Bückse! ', jurgens-buckse",
    "Café (crème), cafe-creme",
    "a__b..c, a-b-c",
    "-x-, x",
    "种子, container",
    "芒果 3, 3",
    "!!!, container",
    "Room, room-2",
    "ROOM!, room-2",
  })
  void aNameIsMadePlain(String name, String id) {
    assertEquals(id, ContainerId.forName(name, Set.of()).value());
  }

  @Test
  void aTakenNameGetsTheNextFreeNumber() {
    Set<ContainerId> taken = new HashSet<>();
    for (String expected : List.of("box", "box-2", "box-3")) {
      ContainerId id = ContainerId.forName("Box", taken);
      assertEquals(expected, id.value());
      taken.add(id);
    }
    assertEquals("box-2-2", ContainerId.forName("box 2", taken).value());
  }

  @Test
  void aVeryLongNameIsCutAndStillGetsANumber() {
    ContainerId cut = ContainerId.forName("x".repeat(500), Set.of());
    assertEquals("x".repeat(56), cut.value());
    assertEquals("x".repeat(56) + "-2", ContainerId.forName("x".repeat(500), Set.of(cut)).value());
    String hyphenAtTheCut = "x".repeat(55) + " y";
    assertEquals("x".repeat(55), ContainerId.forName(hyphenAtTheCut, Set.of()).value());
  }

  @Test
  void aNameIsSimplifiedInTheSameWayInEveryLocale() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr"));
      assertEquals("ginger-i", ContainerId.forName("GINGER I", Set.of()).value());
    } finally {
      Locale.setDefault(before);
    }
  }

  @Property
  void anyNameGivesAnIdThatIsFreeAndNotTheRoom(@ForAll String name) {
    ContainerId first = ContainerId.forName(name, Set.of());
    ContainerId second = ContainerId.forName(name, Set.of(first));
    assertNotEquals(first, second);
    assertFalse(Set.of(first, second).contains(ContainerId.ROOM));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "Bag", "a b", "-a", "a/b", "a#", "ä", "../x", "a\n"})
  void anIdOfAnotherFormIsRefused(String value) {
    assertThrows(IllegalArgumentException.class, () -> new ContainerId(value));
  }

  @Test
  void anIdHasAtMost64Characters() {
    assertEquals(64, new ContainerId("x".repeat(64)).toString().length());
    assertThrows(IllegalArgumentException.class, () -> new ContainerId("x".repeat(65)));
  }
}
