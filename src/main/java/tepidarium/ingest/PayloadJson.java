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
 * Parses untrusted JSON with limits, and describes syntax errors for users. Limits: 32 levels of
 * nesting, 400 digits a number, 1,000 characters a name, 1,000 fields an object, 65,536 characters
 * a text that is used.
 */
final class PayloadJson {
  /** Maximum nesting; readings are flat, and other devices nest a few levels. */
  private static final int MAX_NESTING = 32;

  private static final int MAX_DIGITS = 400;
  private static final int MAX_NAME_LENGTH = 1_000;
  private static final int MAX_TEXT_LENGTH = 65_536;

  /** Maximum number of fields per object; bounds the memory of the duplicate check. */
  private static final int MAX_FIELDS = 1_000;

  private static final JsonFactory FACTORY = factory().build();
  private static final JsonFactory CHECKING_FACTORY =
      factory().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
  private static final JsonNode SOME_OBJECT = NODES.rawValueNode(new RawValue("{…}"));
  private static final JsonNode SOME_ARRAY = NODES.rawValueNode(new RawValue("[…]"));

  private PayloadJson() {}

  private static JsonFactoryBuilder factory() {
    StreamReadConstraints limits =
        StreamReadConstraints.builder()
            .maxNestingDepth(MAX_NESTING)
            .maxNumberLength(MAX_DIGITS)
            .maxNameLength(MAX_NAME_LENGTH)
            .maxStringLength(MAX_TEXT_LENGTH)
            .build();
    return new JsonFactoryBuilder()
        .streamReadConstraints(limits)
        // Some sensor libraries write NaN for one quantity; the other quantities stay valid.
        .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
        // A table of untrusted names would grow without limit.
        .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
        .disable(JsonFactory.Feature.INTERN_FIELD_NAMES);
  }

  /** Creates a parser that rejects duplicate names within one object. */
  static JsonParser checkingParser(byte[] utf8) throws IOException {
    return CHECKING_FACTORY.createParser(utf8);
  }

  static JsonParser parser(byte[] utf8) throws IOException {
    return FACTORY.createParser(utf8);
  }

  /** Throws if the current object has too many fields. */
  static void checkFields(JsonParser parser) throws StreamConstraintsException {
    if (parser.currentToken() == JsonToken.FIELD_NAME
        && parser.getParsingContext().getEntryCount() > MAX_FIELDS) {
      throw new StreamConstraintsException("Fields", parser.currentLocation());
    }
  }

  /** Describes a syntax error for users; the library's message is meant for developers. */
  static String reason(JsonProcessingException e) {
    String message = String.valueOf(e.getOriginalMessage());
    String place = at(e.getLocation());
    if (e instanceof StreamConstraintsException) {
      return overLimit(message) + place + ": send a flat object of short names and numbers";
    }
    if (message.startsWith("Duplicate")) {
      return "a field that occurs twice in one object" + place + ": send each once";
    }
    return message.startsWith("Unexpected end-of-input")
        ? "broken JSON, the text ends too early" + place + ": check the sender's buffer size"
        : "broken JSON" + place + ": check quotes, commas and braces there";
  }

  private static String overLimit(String message) {
    if (message.contains("nesting")) {
      return "JSON nested more than " + MAX_NESTING + " deep";
    }
    if (message.startsWith("Fields")) {
      return "an object with more than " + MAX_FIELDS + " fields";
    }
    return message.startsWith("Number")
        ? "a number with more than " + MAX_DIGITS + " digits"
        : "a name or a text that is far too long";
  }

  static String at(@Nullable JsonLocation location) {
    return location == null
        ? ""
        : " at line " + location.getLineNr() + ", column " + location.getColumnNr();
  }

  /**
   * Reads the value at the parser's position and moves to its end. Skips objects and arrays and
   * returns a placeholder for them.
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
        JsonNode placeholder = placeholder(parser);
        parser.skipChildren();
        yield placeholder;
      }
    };
  }

  /** Returns a placeholder for the object or array at the parser's position. */
  static JsonNode placeholder(JsonParser parser) {
    return parser.isExpectedStartArrayToken() ? SOME_ARRAY : SOME_OBJECT;
  }

  private static JsonNode textOf(JsonParser parser) throws IOException {
    try {
      return NODES.textNode(parser.getText());
    } catch (StreamConstraintsException e) {
      return NODES.rawValueNode(
          new RawValue("a text of more than " + MAX_TEXT_LENGTH + " characters"));
    }
  }

  private static JsonNode wholeNumber(JsonParser parser) throws IOException {
    return switch (parser.getNumberType()) {
      case INT -> NODES.numberNode(parser.getIntValue());
      case LONG -> NODES.numberNode(parser.getLongValue());
      default -> NODES.numberNode(parser.getBigIntegerValue());
    };
  }

  /** Returns the field; null if it is missing or holds JSON null. */
  static @Nullable JsonNode present(@Nullable JsonNode field) {
    return field == null || field.isNull() || field.isMissingNode() ? null : field;
  }

  /** Formats a value as it was sent; cut at 60 characters. */
  static String show(JsonNode value) {
    return value.isTextual() ? Text.quote(value.textValue()) : Text.cut(value.toString());
  }

  /** Names the type of the value at the parser's position. */
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
