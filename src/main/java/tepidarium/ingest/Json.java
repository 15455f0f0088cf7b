package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.jspecify.annotations.Nullable;

/** JSON of strangers, read with limits, its faults told in the grower's words. */
final class Json {
  /** A reading is flat; foreign devices nest a few levels. */
  private static final int DEEPEST = 32;

  private static final int MOST_DIGITS = 400;

  private static final String ONE_VALUE =
      "send one object a message, or several as an array [{…},{…}]";

  private static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxNestingDepth(DEEPEST)
                          .maxNumberLength(MOST_DIGITS)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  // A sensor's library may write NaN for one quantity; the others stay good.
                  .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
                  // Names come from strangers, and a table of them would outlive the message.
                  .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
                  .disable(JsonFactory.Feature.INTERN_FIELD_NAMES)
                  .build())
          .build();

  private Json() {}

  /** The one JSON value that the text holds; otherwise null, and the message is rejected. */
  static @Nullable JsonNode parse(String text, Outcome outcome) {
    try (JsonParser parser = MAPPER.createParser(text)) {
      JsonNode value = MAPPER.readTree(parser);
      JsonLocation end = parser.currentLocation();
      if (hasMore(parser)) {
        outcome.reject("something follows the JSON value" + at(end) + ": " + ONE_VALUE);
        return null;
      }
      return value;
    } catch (JsonProcessingException e) {
      outcome.reject(reason(e));
      return null;
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory could not be read", e);
    }
  }

  private static boolean hasMore(JsonParser parser) throws IOException {
    try {
      return parser.nextToken() != null;
    } catch (JsonProcessingException e) {
      // Not even JSON follows, so something does.
      return true;
    }
  }

  /** The fault in plain words; the library's own message quotes its source and its options. */
  private static String reason(JsonProcessingException e) {
    String told = String.valueOf(e.getOriginalMessage());
    String where = at(e.getLocation());
    if (e instanceof StreamConstraintsException) {
      return overLimit(told) + where + ": send a flat object of short names and numbers";
    }
    if (told.startsWith("Duplicate")) {
      return "a field that occurs twice in one object" + where + ": send each once";
    }
    return told.startsWith("Unexpected end-of-input")
        ? "broken JSON, the text ends too early" + where + ": check the sender's buffer size"
        : "broken JSON" + where + ": check quotes, commas and braces there";
  }

  private static String overLimit(String told) {
    if (told.contains("nesting")) {
      return "JSON nested more than " + DEEPEST + " deep";
    }
    return told.startsWith("Number")
        ? "a number of more than " + MOST_DIGITS + " digits"
        : "a name or a text that is far too long";
  }

  private static String at(@Nullable JsonLocation location) {
    return location == null
        ? ""
        : " at line " + location.getLineNr() + ", column " + location.getColumnNr();
  }

  /** The field where it holds something; null where it is missing or holds null. */
  static @Nullable JsonNode given(@Nullable JsonNode field) {
    return field == null || field.isNull() || field.isMissingNode() ? null : field;
  }

  /** A value as it was sent, cut where it is long. */
  static String show(JsonNode value) {
    return value.isTextual() ? Text.quote(value.textValue()) : Text.cut(value.toString());
  }

  /** What was found in place of what was looked for: an object's fields, or the kind of value. */
  static String found(JsonNode value) {
    return value.isObject() ? Text.list(value.fieldNames()) : kind(value);
  }

  /** The kind of a value in words. */
  static String kind(JsonNode value) {
    return switch (value.getNodeType()) {
      case OBJECT, POJO -> "an object";
      case ARRAY -> "an array";
      case STRING, BINARY -> "a text";
      case NUMBER -> "a number";
      case BOOLEAN -> "true or false";
      case NULL, MISSING -> "null";
    };
  }
}
