package tepidarium.access;

import java.time.Duration;

/** The outcome of a sign-in. */
public sealed interface SignIn {
  /**
   * The password is right.
   *
   * @param secret secret for the cookie of the browser; it is not stored
   */
  record Started(Session session, Person person, String secret) implements SignIn {
    /** Leaves out the secret, because this text may be logged. */
    @Override
    public String toString() {
      return "Started[" + session + ']';
    }
  }

  /**
   * The name or the password is wrong.
   *
   * @param knownName whether there is a person of this name
   */
  record Wrong(boolean knownName) implements SignIn {}

  /** Too many guesses were wrong; the next one may be made after this time. */
  record Slowed(Duration pause) implements SignIn {}
}
