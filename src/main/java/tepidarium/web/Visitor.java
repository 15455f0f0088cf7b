package tepidarium.web;

import io.javalin.http.Context;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tepidarium.access.Identity;
import tepidarium.access.Role;

/**
 * Who makes a request, as its handler sees it.
 *
 * @param identity null if nobody is signed in, or if the service asks for no login
 * @param role null if nobody is signed in
 * @param isStillAllowed tells later whether the session or token has not ended
 */
public record Visitor(
    @Nullable Identity identity, @Nullable Role role, BooleanSupplier isStillAllowed) {
  /** Visitor of a service that asks for no login. */
  public static final Visitor EVERYBODY = new Visitor(null, Role.OWN, () -> true);

  /** Visitor of a service that asks for a login, before the login. */
  public static final Visitor NOBODY = new Visitor(null, null, () -> false);

  private static final String ATTRIBUTE = Visitor.class.getName();

  /** The visitor of a request; {@link #NOBODY} before the request was checked. */
  public static Visitor of(Context ctx) {
    Visitor visitor = ctx.attribute(ATTRIBUTE);
    return Objects.requireNonNullElse(visitor, NOBODY);
  }

  public void visits(Context ctx) {
    ctx.attribute(ATTRIBUTE, this);
  }

  public boolean may(Role needed) {
    return role != null && role.includes(needed);
  }

  /**
   * The name that a change is recorded under: that of the person or token who is signed in, or the
   * given one if the service asks for no login.
   */
  public @Nullable String recordedAs(@Nullable String given) {
    return identity == null ? given : identity.name();
  }
}
