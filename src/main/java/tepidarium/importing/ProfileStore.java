package tepidarium.importing;

import java.util.List;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** Stores profiles of imports. */
public interface ProfileStore {
  int MAX_PROFILES = 100;

  /** All profiles by name. */
  List<ImportProfile> all();

  /**
   * Stores a profile. Replaces one of the same name.
   *
   * @throws InvalidInput if there are {@value #MAX_PROFILES} others already
   */
  void save(ImportProfile profile);

  /** Deletes a profile. Returns whether there was one. */
  boolean remove(String name);

  /**
   * The choices of a profile.
   *
   * @throws InvalidInput if there is none of this name; the message lists those there are
   */
  default ImportChoices choices(String name) {
    List<ImportProfile> all = all();
    return all.stream()
        .filter(profile -> profile.name().equals(name))
        .findFirst()
        .map(ImportProfile::choices)
        .orElseThrow(
            () ->
                new InvalidInput(
                    "there is no import profile \""
                        + name
                        + "\". "
                        + (all.isEmpty()
                            ? "None is kept yet"
                            : "Kept are: "
                                + String.join(
                                    ", ", all.stream().map(ImportProfile::name).toList())),
                    InputRule.NOT_FOUND.with(name)));
  }
}
