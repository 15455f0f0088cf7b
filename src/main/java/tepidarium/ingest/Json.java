package tepidarium.ingest;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonFactoryBuilder;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.util.RawValue;
import java.io.IOException;
import org.jspecify.annotations.Nullable;

/**
 * Parses the JSON of senders that are not trusted, with limits, and describes its faults in plain
 * words. Limits: 32 levels of nesting, 400 digits a number, 1,000 characters a name, 1,000 fields
 * an object, 65,536 characters a text that is used.
 */
final class Json {
  /** A reading is flat; foreign devices nest a few levels. */
  private static final int DEEPEST = 32;

  private static final int MOST_DIGITS = 400;
  private static final int LONGEST_NAME = 1_000;
  private static final int LONGEST_TEXT = 65_536;

  /** The check for repeated names keeps the names of the objects that are open. */
  private static final int MOST_FIELDS = 1_000;

  private static final JsonFactory FACTORY = factory().build();
  private static final JsonFactory CHECKING_FACTORY =
      factory().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
  private static final JsonNode SOME_OBJECT = NODES.rawValueNode(new RawValue("{…}"));
  private static final JsonNode SOME_ARRAY = NODES.rawValueNode(new RawValue("[…]"));

  private Json() {}

  private static JsonFactoryBuilder factory() {
    StreamReadConstraints limits =
        StreamReadConstraints.builder()
            .maxNestingDepth(DEEPEST)
            .maxNumberLength(MOST_DIGITS)
            .maxNameLength(LONGEST_NAME)
            .maxStringLength(LONGEST_TEXT)
            .build();
    return new JsonFactoryBuilder()
        .streamReadConstraints(limits)
        // A sensor's library may write NaN for one quantity; the others stay good.
        .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
        // Names come from senders that are not trusted; a table of them would outlive the message.
        .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
        .disable(JsonFactory.Feature.INTERN_FIELD_NAMES);
  }

  /** A parser that fails on a name that occurs twice in one object. */
  static JsonParser checkingParser(byte[] utf8) throws IOException {
    return CHECKING_FACTORY.createParser(utf8);
  }

  static JsonParser parser(byte[] utf8) throws IOException {
    return FACTORY.createParser(utf8);
  }

  /** Fails where the parser stands in an object of too many fields. */
  static void checkFields(JsonParser parser) throws StreamConstraintsException {
    if (parser.currentToken() == JsonToken.FIELD_NAME
        && parser.getParsingContext().getEntryCount() > MOST_FIELDS) {
      throw new StreamConstraintsException("Fields", parser.currentLocation());
    }
  }

  /** The fault in plain words; the library's own message quotes its source and its options. */
  static String reason(JsonProcessingException e) {
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
    if (told.startsWith("Fields")) {
      return "an object of more than " + MOST_FIELDS + " fields";
    }
    return told.startsWith("Number")
        ? "a number of more than " + MOST_DIGITS + " digits"
        : "a name or a text that is far too long";
  }

  static String at(@Nullable JsonLocation location) {
    return location == null
        ? ""
        : " at line " + location.getLineNr() + ", column " + location.getColumnNr();
  }

  /**
   * The value where the parser stands, which it leaves at its end. Objects and arrays are skipped:
   * a node stands for them that can be shown.
   */
  static JsonNode value(JsonParser parser) throws IOException {
    return switch (parser.currentToken()) {
      case VALUE_STRING -> textOf(parser);
      case VALUE_NUMBER_INT -> wholeNumber(parser);
      case VALUE_NUMBER_FLOAT -> NODES.numberNode(parser.getDoubleValue());
      case VALUE_TRUE -> NODES.booleanNode(true);
      case VALUE_FALSE -> NODES.booleanNode(false);
      case VALUE_NULL -> NODES.nullNode();
      default -> {
        JsonNode some = standIn(parser);
        parser.skipChildren();
        yield some;
      }
    };
  }

  /** A node that stands for the object or the array that begins where the parser stands. */
  static JsonNode standIn(JsonParser parser) {
    return parser.isExpectedStartArrayToken() ? SOME_ARRAY : SOME_OBJECT;
  }

  private static JsonNode textOf(JsonParser parser) throws IOException {
    try {
      return NODES.textNode(parser.getText());
    } catch (StreamConstraintsException e) {
      return NODES.rawValueNode(
          new RawValue("a text of more than " + LONGEST_TEXT + " characters"));
    }
  }

  private static JsonNode wholeNumber(JsonParser parser) throws IOException {
    return switch (parser.getNumberType()) {
      case INT -> NODES.numberNode(parser.getIntValue());
      case LONG -> NODES.numberNode(parser.getLongValue());
      default -> NODES.numberNode(parser.getBigIntegerValue());
    };
  }

  /** The field where it holds something; null where it is missing or holds null. */
  static @Nullable JsonNode given(@Nullable JsonNode field) {
    return field == null || field.isNull() || field.isMissingNode() ? null : field;
  }

  /** A value as it was sent, cut where it is long. */
  static String show(JsonNode value) {
    return value.isTextual() ? Text.quote(value.textValue()) : Text.cut(value.toString());
  }

  /** The kind of value at which the parser stands, in words. */
  static String kind(JsonParser parser) {
    return switch (parser.currentToken()) {
      case START_ARRAY, END_ARRAY -> "an array";
      case VALUE_STRING -> "a text";
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> "a number";
      case VALUE_TRUE, VALUE_FALSE -> "true or false";
      case VALUE_NULL -> "null";
      default -> "an object";
    };
  }
}
