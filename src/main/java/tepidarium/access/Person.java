package tepidarium.access;

/**
 * A person who can sign in.
 *
 * @param id number that no other person ever has
 * @param name unique, without regard to upper and lower case
 * @param passwordHash see {@link Passwords}
 */
public record Person(long id, String name, Role role, String passwordHash) {
  Person withRole(Role newRole) {
    return new Person(id, name, newRole, passwordHash);
  }

  Person withPasswordHash(String newHash) {
    return new Person(id, name, role, newHash);
  }

  /** Leaves out the hash, because this text may be logged. */
  @Override
  public String toString() {
    return "Person[" + id + ", " + role + ']';
  }
}
