package tepidarium.records;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.json.JsonMapper;

/**
 * Converts the values of a column that holds JSON. Members that are null are left out.
 *
 * @param type class of the values
 * @param name what a value is, for messages, such as "mapping rule"
 */
record JsonColumn<T>(Class<T> type, String name) {
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .defaultPropertyInclusion(
              JsonInclude.Value.construct(
                  JsonInclude.Include.NON_NULL, JsonInclude.Include.NON_NULL))
          .build();

  String write(T value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write the " + name + " as JSON", e);
    }
  }

  /**
   * Reads a stored value.
   *
   * @throws IllegalStateException if it cannot be read
   */
  T read(String json) {
    try {
      return MAPPER.readValue(json, type);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the stored " + name + ' ' + json + " cannot be read", e);
    }
  }
}
