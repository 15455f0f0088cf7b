package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tepidarium.LanguageFile;
import tepidarium.reading.InvalidInput;

class ImportTextsTest {
  private static final Path TEXTS = Path.of("src/main/resources/tepidarium/importing");
  private static final Path CODE = Path.of("src/main/java/tepidarium/importing");
  private static final ImportTexts GERMAN = ImportTexts.fields(Locale.GERMAN);

  /** Keys that are put together from a quantity or an order of the date. */
  private static final Set<String> BY_VALUE = Set.of("quantity", "order");

  private static Properties texts(String file) throws IOException {
    return LanguageFile.read(TEXTS.resolve(file));
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void everyTextIsThereInEachLanguageAndUsed() throws IOException {
    Set<String> english = new TreeSet<>(texts("import.properties").stringPropertyNames());
    assertEquals(english, new TreeSet<>(texts("import_de.properties").stringPropertyNames()));
    String code;
    try (Stream<Path> files = Files.list(CODE)) {
      code = files.map(ImportTextsTest::read).collect(Collectors.joining());
    }
    List<String> unused =
        english.stream()
            .filter(key -> !BY_VALUE.contains(key.split("\\.")[0]))
            .filter(key -> !code.contains('"' + key + '"'))
            .filter(key -> !code.contains('"' + key.substring(key.indexOf('.') + 1) + '"'))
            .toList();
    assertEquals(List.of(), unused);
  }

  @Test
  void eachTextHasTheSameValuesInEachLanguageAndNoSingleApostrophe() throws IOException {
    Properties english = texts("import.properties");
    Properties german = texts("import_de.properties");
    for (String key : english.stringPropertyNames()) {
      assertEquals(
          LanguageFile.values(english.getProperty(key)),
          LanguageFile.values(german.getProperty(key)),
          key);
      assertFalse(english.getProperty(key).replace("''", "").contains("'"), key);
      assertFalse(german.getProperty(key).contains("'"), key);
    }
  }

  private static ImportOptions german(String delimiter) {
    ImportChoices choices =
        new ImportChoices(null, null, null, null, delimiter, null, null, Map.of());
    return choices.options("regal 2.csv", Imported.BERLIN, Imported.NOW, GERMAN);
  }

  @Test
  void whatWasRecognisedIsSaidInGerman() {
    String file = "Zeit;Temperatur °C;Feuchte\n28.03.2026 12:00;21,5;96\nmorgens;21,6;96\n";
    Imported imported = Imported.of(file, german("semicolon"));
    List<String> said =
        imported.guesses.stream()
            .map(guess -> guess.what() + ": " + guess.value() + " (" + guess.reason() + ')')
            .toList();
    assertTrue(
        said.contains("Trennzeichen: Semikolon (eingetragen in „Trennzeichen“)"), said::toString);
    assertTrue(said.contains("Dezimalzeichen: Komma (Zahlen wie 21,5)"), said::toString);
    assertTrue(
        said.contains(
            "Spalte 2 „Temperatur °C“: Temperatur in °C (die Überschrift nennt die Einheit)"),
        said::toString);
    assertEquals(
        List.of("3: „morgens“ ist keine Zeit wie die anderen (Tag, Monat, Jahr)"), imported.bad);
  }

  @Test
  void aRefusalIsSaidInGermanAndNamesTheFieldOfThePage() {
    String words =
        assertThrows(
                InvalidInput.class,
                () -> Imported.of("Zeit;Farbe\n28.03.2026 12:00;21,5\n", german("semicolon")))
            .getMessage();
    assertEquals(
        "Keine Überschrift einer Spalte nennt Temperatur, Feuchte, Licht, CO₂, Substratfeuchte oder"
            + " Batterie. Die Spalten nennen, etwa 2=temperature in „Spalten“. Die Spalten sind"
            + " 1 \"Zeit\", 2 \"Farbe\"",
        words);
  }
}
