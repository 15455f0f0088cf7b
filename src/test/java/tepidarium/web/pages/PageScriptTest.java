package tepidarium.web.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The joined script of small modules in the test resources, and of the real pages. */
class PageScriptTest {
  private static String joined(String module) {
    return PageScript.join(List.of("/script-test/" + module), "de");
  }

  @Test
  void aModuleStandsOnceAfterAllThatItImports() {
    assertEquals(
        """
        import uPlot from '/uplot/uPlot.esm.js';
        // /script-test/words.js
        const $1 = (() => {
        const $default = { warm: 'warm' };
        return { default: $default };
        })();
        // /script-test/seeds.js
        const $2 = (() => {
        const { default: words } = $1;
        const SOWN = 4;
        const half = () => SOWN / 2;
        function told() {
          return words.warm;
        }
        async function later() {}
        class Seed {}
        return { half, told, later, Seed };
        })();
        // /script-test/page.js
        const $3 = (() => {
        const { half, told: say, } = $2;
        const seeds = $2;


        console.log(half(), say(), seeds, uPlot);
        return {  };
        })();
        """,
        joined("page.js"));
  }

  @Test
  void modulesInACircleAreRefused() {
    Exception refused = assertThrows(IllegalStateException.class, () -> joined("circle.js"));
    assertTrue(refused.getMessage().contains("circle.js imports itself"), refused.getMessage());
  }

  @Test
  void otherStatementsAreRefused() {
    Exception refused = assertThrows(IllegalStateException.class, () -> joined("other.js"));
    assertEquals(
        "/script-test/other.js cannot be joined: export let changes = 1;", refused.getMessage());
  }

  @Test
  void onlyTheTextsOfOneLanguageAreJoined() {
    assertEquals(
        """
        // /script-test/texts.de.js
        const $1 = (() => {
        const $default = {
          warm: 'warm, aber auf Deutsch',
        };
        return { default: $default };
        })();
        // /script-test/texts.js
        const $2 = (() => {
        const { default: de } = $1;
        const en = null;
        const texts = { de, en };
        return { texts };
        })();
        """,
        joined("texts.js"));
  }

  @Test
  void noModuleOfAPageIsLeftOut() {
    String shelf = PageScript.join(PageFrame.modules("shelf"), "en");
    assertTrue(shelf.contains("// /shared/language-switch.js\n"), "the frame's module");
    assertTrue(shelf.contains("// /shelf/shelf.js\n"), "the page's module");
    assertFalse(Pattern.compile("^(import|export)\\b", Pattern.MULTILINE).matcher(shelf).find());
  }
}
