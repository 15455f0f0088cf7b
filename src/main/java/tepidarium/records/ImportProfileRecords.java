package tepidarium.records;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.List;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportProfile;
import tepidarium.importing.ProfileStore;
import tepidarium.reading.InvalidInput;

/** Stores profiles of imports in the records store, the choices of each as JSON. */
public final class ImportProfileRecords implements ProfileStore {
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .defaultPropertyInclusion(
              JsonInclude.Value.construct(
                  JsonInclude.Include.NON_NULL, JsonInclude.Include.NON_NULL))
          .build();

  private final Database database;

  public ImportProfileRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<ImportProfile> all() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT name, choices FROM import_profile ORDER BY name")
                .map(
                    (row, context) ->
                        new ImportProfile(row.getString("name"), read(row.getString("choices"))))
                .list());
  }

  @Override
  public void save(ImportProfile profile) {
    boolean full =
        database.transaction(
            handle -> {
              handle.execute("DELETE FROM import_profile WHERE name = ?", profile.name());
              int others =
                  handle
                      .createQuery("SELECT COUNT(*) FROM import_profile")
                      .mapTo(Integer.class)
                      .one();
              if (others < MAX_PROFILES) {
                handle.execute(
                    "INSERT INTO import_profile (name, choices) VALUES (?, ?)",
                    profile.name(),
                    write(profile.choices()));
              }
              return others >= MAX_PROFILES;
            });
    if (full) {
      throw new InvalidInput(
          "there are " + MAX_PROFILES + " import profiles already. Delete one on the page Files");
    }
  }

  @Override
  public boolean remove(String name) {
    return database.transaction(
        handle -> handle.execute("DELETE FROM import_profile WHERE name = ?", name) > 0);
  }

  private static String write(ImportChoices choices) {
    try {
      return MAPPER.writeValueAsString(choices);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write an import profile as JSON", e);
    }
  }

  private static ImportChoices read(String json) {
    try {
      return MAPPER.readValue(json, ImportChoices.class);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the stored import profile " + json + " cannot be read", e);
    }
  }
}
