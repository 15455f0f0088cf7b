package tepidarium.records;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.annotation.JsonValue;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import tepidarium.container.ContainerId;
import tepidarium.germination.Act;
import tepidarium.germination.GroupId;

/**
 * Converts acts of the germination journal to JSON and back. The field {@code kind} names the type
 * of act. Stored entries are never rewritten, so existing field names must stay readable.
 */
final class ActJson {
  @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
  @JsonSubTypes({
    @JsonSubTypes.Type(value = Act.Sown.class, name = "sown"),
    @JsonSubTypes.Type(value = Act.Moved.class, name = "moved"),
    @JsonSubTypes.Type(value = Act.Checked.class, name = "checked"),
    @JsonSubTypes.Type(value = Act.Survival.class, name = "survival"),
    @JsonSubTypes.Type(value = Act.Named.class, name = "named"),
    @JsonSubTypes.Type(value = Act.Withdrawn.class, name = "withdrawn")
  })
  private interface ActMixIn {}

  private abstract static class GroupIdMixIn {
    @JsonCreator
    static GroupId parse(String text) {
      return GroupId.parse(text);
    }

    @Override
    @JsonValue
    public abstract String toString();
  }

  @SuppressWarnings("UnusedVariable") // Jackson reads only the annotations of a mix-in.
  private abstract static class ContainerIdMixIn {
    @JsonCreator
    ContainerIdMixIn(String value) {}

    @JsonValue
    abstract String value();
  }

  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .addMixIn(Act.class, ActMixIn.class)
          .addMixIn(GroupId.class, GroupIdMixIn.class)
          .addMixIn(ContainerId.class, ContainerIdMixIn.class)
          .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
          .defaultPropertyInclusion(
              JsonInclude.Value.construct(JsonInclude.Include.NON_NULL, JsonInclude.Include.ALWAYS))
          .build();

  private ActJson() {}

  static String write(Act act) {
    try {
      return MAPPER.writerFor(Act.class).writeValueAsString(act);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write " + act + " as JSON", e);
    }
  }

  /**
   * Reads an act.
   *
   * @throws IllegalStateException if the text is not the JSON of an act
   */
  static Act read(String json) {
    try {
      return MAPPER.readValue(json, Act.class);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(
          "cannot read this entry of the germination journal: " + json, e);
    }
  }
}
