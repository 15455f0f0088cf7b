package tepidarium.records;

import java.util.List;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportProfile;
import tepidarium.importing.ProfileStore;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** Stores profiles of imports in the records store, the choices of each as JSON. */
public final class ImportProfileRecords implements ProfileStore {
  private static final JsonColumn<ImportChoices> COLUMN =
      new JsonColumn<>(ImportChoices.class, "import profile");

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
                        new ImportProfile(
                            row.getString("name"), COLUMN.read(row.getString("choices"))))
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
                    COLUMN.write(profile.choices()));
              }
              return others >= MAX_PROFILES;
            });
    if (full) {
      throw new InvalidInput(
          "there are " + MAX_PROFILES + " import profiles already. Delete one on the page Files",
          InputRule.FULL.with(MAX_PROFILES));
    }
  }

  @Override
  public boolean remove(String name) {
    return database.transaction(
        handle -> handle.execute("DELETE FROM import_profile WHERE name = ?", name) > 0);
  }
}
