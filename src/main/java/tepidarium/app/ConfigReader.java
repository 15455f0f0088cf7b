package tepidarium.app;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.charset.CharacterCodingException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.commons.text.similarity.LevenshteinDistance;
import org.jspecify.annotations.Nullable;

/**
 * Reads the settings that the page has saved, a YAML file, the environment (TEPIDARIUM_HTTP_PORT
 * for httpPort) and the command line. Each overrides those before it ({@link SettingsSources}). In
 * the environment, a setting that holds several values is written in YAML, as in the file: {@code
 * TEPIDARIUM_SITE='{latitude: 52.5, longitude: 13.4}'}.
 */
final class ConfigReader {
  private static final String PREFIX = "TEPIDARIUM_";
  private static final String NOTICES = "notices";
  private static final int CLOSE_ENOUGH = 3;
  private static final int MAX_BYTES = 1 << 20;
  private static final YAMLMapper YAML =
      YAMLMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .disable(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .build();

  private ConfigReader() {}

  /**
   * Reads and checks all settings, those saved on the page included.
   *
   * @param file the YAML file, or null for none
   * @param commandLine settings that override all others, by name
   * @throws ConfigException if a setting is wrong; it lists every mistake and its place
   */
  static Config read(
      @Nullable Path file, Map<String, String> environment, Map<String, String> commandLine) {
    ObjectNode settings = file == null ? YAML.createObjectNode() : tree(file);
    List<String> names = names();
    refuseUnknown(settings, names, file);
    ObjectNode variables = YAML.createObjectNode();
    for (RecordComponent setting : ConfigFile.class.getRecordComponents()) {
      String variable = variable(setting.getName());
      String value = environment.get(variable);
      if (value != null) {
        variables.set(
            setting.getName(), isPlain(setting) ? new TextNode(value) : of(variable, value));
      }
    }
    ObjectNode options = YAML.createObjectNode();
    commandLine.forEach(options::put);
    return checkedWithPage(
        new SettingsSources(
            YAML.createObjectNode(), settings, variables, options, file, environment));
  }

  /** Checks settings by name; see {@link Config#of}. */
  static Config read(Map<String, ?> settings) {
    ObjectNode tree = YAML.valueToTree(settings);
    refuseUnknown(tree, names(), null);
    ObjectNode none = YAML.createObjectNode();
    return checkedWithPage(new SettingsSources(none, tree, none, none, null, Map.of()));
  }

  /** Adds the settings that the page has saved in the data folder, and checks all. */
  private static Config checkedWithPage(SettingsSources sources) {
    Config config = checked(sources);
    Path saved = config.data().resolve(SavedSettings.FILE_NAME);
    if (!Files.exists(saved)) {
      return config;
    }
    ObjectNode page = tree(saved);
    refuseUnknown(page, names(), saved);
    try {
      return checked(sources.withPage(page));
    } catch (ConfigException e) {
      throw e.with(
          "Some settings are in "
              + saved
              + ", saved on the page Settings. If one of them is wrong, change or delete that file");
    }
  }

  /**
   * Checks settings.
   *
   * @throws ConfigException if a setting is wrong; it lists every mistake and its place
   */
  static Config checked(SettingsSources sources) {
    ObjectNode settings = sources.merged();
    refuseEmptyEntries("", settings);
    if (!settings.hasNonNull(NOTICES)) {
      settings.putObject(NOTICES); // Every setting of the section then has its default.
    }
    try {
      return YAML.treeToValue(settings, ConfigFile.class)
          .checked(sources, SettingsCopy.of(settings));
    } catch (UnrecognizedPropertyException e) {
      throw problem(place(e) + ": there is no setting \"" + e.getPropertyName() + "\" here");
    } catch (InvalidFormatException e) {
      throw problem(place(e) + ": \"" + e.getValue() + "\" is not " + kind(e.getTargetType()));
    } catch (JsonMappingException e) {
      Throwable cause = e.getCause();
      String words =
          cause instanceof IllegalArgumentException && cause.getMessage() != null
              ? cause.getMessage()
              : "has a value of the wrong kind (" + e.getOriginalMessage() + ")";
      throw problem(place(e) + ": " + words);
    } catch (JsonProcessingException e) {
      throw problem(String.valueOf(e.getOriginalMessage()));
    }
  }

  private static boolean isPlain(RecordComponent setting) {
    Class<?> type = setting.getType();
    return type == String.class || Number.class.isAssignableFrom(type);
  }

  private static JsonNode of(String variable, String value) {
    JsonNode tree = parsed(variable, value);
    return tree.isMissingNode() ? NullNode.instance : tree;
  }

  /**
   * Parses one YAML document to a tree.
   *
   * @param where the file or variable, for error messages
   */
  private static JsonNode parsed(String where, String text) {
    try (YAMLParser tokens = YAML.getFactory().createParser(text)) {
      while (tokens.nextToken() != null) {
        if (tokens.isCurrentAlias()) {
          throw problem(
              where
                  + inLine(tokens.currentTokenLocation())
                  + ": \"*"
                  + tokens.getText()
                  + "\" refers to another place, which is not supported; write the value itself");
        }
      }
      return YAML.readTree(text);
    } catch (MismatchedInputException e) {
      throw problem(where + ": holds more than one YAML document; leave the first one only");
    } catch (JsonProcessingException e) {
      throw problem(where + inLine(e.getLocation()) + ": " + firstLine(e.getOriginalMessage()));
    } catch (IOException e) {
      throw problem(where + ": cannot be read as YAML (" + e.getMessage() + ")");
    }
  }

  private static String inLine(@Nullable JsonLocation place) {
    return place == null ? "" : " in line " + place.getLineNr();
  }

  private static ConfigException problem(String line) {
    return new ConfigException(List.of(line));
  }

  private static ObjectNode tree(Path file) {
    JsonNode tree = parsed(file.toString(), text(file));
    if (tree.isMissingNode() || tree.isNull()) {
      return YAML.createObjectNode();
    }
    if (tree instanceof ObjectNode object) {
      return object;
    }
    throw problem(file + ": must hold lines like \"httpPort: 8080\"");
  }

  private static String text(Path file) {
    try {
      if (Files.isDirectory(file)) {
        throw problem(file + " is a folder; name the configuration file in it");
      }
      if (Files.size(file) > MAX_BYTES) {
        throw problem(
            file + " is larger than " + MAX_BYTES + " bytes; is it a configuration file?");
      }
      return Files.readString(file);
    } catch (NoSuchFileException e) {
      throw problem("there is no file " + file);
    } catch (CharacterCodingException e) {
      throw problem(file + " is not UTF-8 text; save it as UTF-8");
    } catch (IOException e) {
      throw problem("cannot read " + file + ": " + e);
    }
  }

  /** Refuses null as an entry of a list. Elsewhere, null gives a setting its default. */
  private static void refuseEmptyEntries(String name, JsonNode value) {
    for (Map.Entry<String, JsonNode> field : value.properties()) {
      refuseEmptyEntries(name + ' ' + field.getKey(), field.getValue());
    }
    for (int i = 0; i < value.size() && value.isArray(); i++) {
      String entry = name + " entry " + (i + 1);
      if (value.path(i).isNull()) {
        throw problem(entry.strip() + ": is empty; write a value or leave the entry out");
      }
      refuseEmptyEntries(entry, value.path(i));
    }
  }

  private static String firstLine(@Nullable String text) {
    return text == null ? "is not YAML" : text.lines().findFirst().orElse("is not YAML");
  }

  private static List<String> names() {
    return Arrays.stream(ConfigFile.class.getRecordComponents()).map(c -> c.getName()).toList();
  }

  private static void refuseUnknown(ObjectNode settings, List<String> names, @Nullable Path file) {
    List<String> problems = new ArrayList<>();
    String where = file == null ? "" : file + ": ";
    settings
        .fieldNames()
        .forEachRemaining(
            name -> {
              if (!names.contains(name)) {
                problems.add(where + "there is no setting \"" + name + "\"" + hint(name, names));
              }
            });
    if (!problems.isEmpty()) {
      throw new ConfigException(problems);
    }
  }

  private static String hint(String name, List<String> names) {
    LevenshteinDistance distance = new LevenshteinDistance(CLOSE_ENOUGH);
    return names.stream()
        .filter(known -> distance.apply(name, known) >= 0)
        .min(Comparator.comparing(known -> distance.apply(name, known)))
        .map(known -> "; did you mean \"" + known + "\"?")
        .orElse("; the settings are " + String.join(", ", names));
  }

  private static String kind(Class<?> type) {
    if (type == Integer.class) {
      return "a whole number";
    }
    return type == Double.class ? "a number" : "of the kind that is needed here";
  }

  private static String place(JsonMappingException e) {
    return e.getPath().stream()
        .map(
            part ->
                part.getFieldName() == null
                    ? "entry " + (part.getIndex() + 1)
                    : part.getFieldName())
        .collect(Collectors.joining(" "));
  }

  /** The environment variable of a setting. */
  static String variable(String setting) {
    return PREFIX + setting.replaceAll("([A-Z])", "_$1").toUpperCase(Locale.ROOT);
  }
}
