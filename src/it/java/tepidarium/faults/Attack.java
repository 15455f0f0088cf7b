package tepidarium.faults;

/**
 * One kind of misuse of the running service.
 *
 * @param name what is done, for the table
 * @param inShortForm whether the short form runs it too
 */
record Attack(String name, boolean inShortForm, Action action) {
  /** Attacks the service and notes each answer. */
  interface Action {
    void run(Target target, Tries tries) throws Exception;
  }

  /** An attack that the short form runs too; it takes about a second. */
  static Attack quick(String name, Action action) {
    return new Attack(name, true, action);
  }

  /** An attack for the long form only. */
  static Attack slow(String name, Action action) {
    return new Attack(name, false, action);
  }
}
