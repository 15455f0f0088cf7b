package tepidarium;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads the properties files with the texts of a language. */
public final class LanguageFile {
  private static final Pattern VALUE = Pattern.compile("\\{(\\d)");

  private LanguageFile() {}

  public static Properties read(Path file) throws IOException {
    Properties texts = new Properties();
    try (Reader reader = Files.newBufferedReader(file)) {
      texts.load(reader);
    }
    return texts;
  }

  /** The numbers of the values in a text. */
  public static Set<String> values(String text) {
    Set<String> values = new TreeSet<>();
    Matcher matcher = VALUE.matcher(text);
    while (matcher.find()) {
      values.add(matcher.group(1));
    }
    return values;
  }
}
