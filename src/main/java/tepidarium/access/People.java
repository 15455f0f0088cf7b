package tepidarium.access;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tepidarium.reading.Checks;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** The people who can sign in, at most {@value #MAX_PEOPLE}. Guarded by the monitor of Access. */
final class People {
  static final int MAX_PEOPLE = 100;
  static final int MAX_NAME_CHARACTERS = 60;

  private final AccessStore store;
  private final Map<Long, Person> people = new LinkedHashMap<>();

  People(AccessStore store) {
    this.store = store;
    store.people().forEach(person -> people.put(person.id(), person));
  }

  List<Person> all() {
    List<Person> sorted = new ArrayList<>(people.values());
    sorted.sort(Comparator.comparing(Person::name, String.CASE_INSENSITIVE_ORDER));
    return sorted;
  }

  Optional<Person> person(long id) {
    return Optional.ofNullable(people.get(id));
  }

  Optional<Person> named(String name) {
    return people.values().stream()
        .filter(person -> person.name().equalsIgnoreCase(name.strip()))
        .findFirst();
  }

  Person add(String name, Role role, String passwordHash) {
    String checked = checked(name);
    if (named(checked).isPresent()) {
      throw new InvalidInput(
          "name",
          "belongs to another person already. Choose another",
          InputRule.TAKEN.with(checked));
    }
    if (people.size() >= MAX_PEOPLE) {
      throw InvalidInput.full("people", MAX_PEOPLE);
    }
    long id = store.addPerson(new Person(0, checked, role, passwordHash));
    Person added = new Person(id, checked, role, passwordHash);
    people.put(id, added);
    return added;
  }

  static String checked(String name) {
    String stripped = name.strip();
    if (stripped.isEmpty() || stripped.length() > MAX_NAME_CHARACTERS) {
      throw InvalidInput.length("name", MAX_NAME_CHARACTERS);
    }
    Checks.noControls("name", stripped);
    return stripped;
  }

  void change(Person changed) {
    if (changed.role() != Role.OWN) {
      requireAnotherOwner(changed.id());
    }
    store.changePerson(changed);
    people.put(changed.id(), changed);
  }

  void remove(long id) {
    requireAnotherOwner(id);
    store.removePerson(id);
    people.remove(id);
  }

  private void requireAnotherOwner(long id) {
    boolean another = people.values().stream().anyMatch(p -> p.role() == Role.OWN && p.id() != id);
    if (!another) {
      throw new InvalidInput(
          "role", "own must stay with at least one person", InputRule.LAST_OWNER.with());
    }
  }
}
