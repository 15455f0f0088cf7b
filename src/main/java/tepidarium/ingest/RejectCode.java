package tepidarium.ingest;

import java.util.Arrays;
import java.util.Locale;

/** The kind of a reject, for programs. The reason describes the same for people. */
public enum RejectCode {
  /** The topic is below the root topic, but is not the topic of a sensor. */
  TOPIC,
  /** The topic is not below the root topic, and no mapping rule matches it. */
  UNMAPPED_TOPIC,
  /** The embedded broker refused the topic to this client. */
  FORBIDDEN_TOPIC,
  /** The payload is empty or blank. */
  EMPTY,
  /** The payload is longer than {@code maxPayloadBytes}. */
  TOO_LARGE,
  /** The payload is not UTF-8. */
  ENCODING,
  /** The payload is not one JSON value within the limits. */
  JSON,
  /** No known quantity has a value. */
  NO_QUANTITY,
  /** The value of a quantity is not a number. */
  NOT_A_NUMBER,
  /** The value of a quantity is outside its range. */
  OUT_OF_RANGE,
  /** The time or age of a reading cannot be used. */
  TIME,
  /** The message was retained, so its age is unknown. */
  RETAINED,
  /** The clock of this service is not set. */
  SERVICE_CLOCK,
  /** A button's message cannot be used. */
  BUTTON,
  /** Too many new sensor names. */
  SENSOR_LIMIT,
  /** The store rejects the reading permanently. */
  STORE,
  /** Anything else, and lines from before codes were stored. */
  OTHER;

  /** The name used in the API and in the store, for example {@code out-of-range}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Returns the code with this key; {@link #OTHER} if the key is unknown. */
  public static RejectCode ofKey(String key) {
    return Arrays.stream(values()).filter(code -> code.key().equals(key)).findFirst().orElse(OTHER);
  }
}
