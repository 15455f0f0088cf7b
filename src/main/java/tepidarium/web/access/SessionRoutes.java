package tepidarium.web.access;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.access.Access;
import tepidarium.access.Identity;
import tepidarium.access.Passwords;
import tepidarium.access.Person;
import tepidarium.access.Role;
import tepidarium.access.Session;
import tepidarium.access.SignIn;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.Problem;
import tepidarium.web.Refused;
import tepidarium.web.Visitor;

/** Routes to sign in and out, to list and end sessions, and to change one's own password. */
public final class SessionRoutes {
  private static final Logger LOG = LoggerFactory.getLogger(SessionRoutes.class);

  private final Login login;

  record SignInRequest(
      @Nullable String name, @Nullable String password, @Nullable Boolean yearLong) {}

  record PasswordRequest(@Nullable String current, @Nullable String password) {}

  /**
   * Who is signed in.
   *
   * @param login whether the service asks for a login
   * @param exposed whether other machines reach the pages without a login
   * @param name null if nobody is signed in
   */
  record Current(boolean login, boolean exposed, @Nullable String name, @Nullable String role) {}

  record SessionJson(
      long id,
      String person,
      Instant startedAt,
      Instant usedAt,
      Instant endsAt,
      boolean yearLong,
      String address,
      String device,
      boolean current) {}

  public SessionRoutes(Login login) {
    this.login = login;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/session", ctx -> ctx.json(current(ctx)));
    routes.post("/api/session", this::signIn);
    routes.delete("/api/session", this::signOut);
    routes.put("/api/session/password", this::changePassword);
    routes.get("/api/sessions", ctx -> ctx.json(sessions(ctx)));
    routes.delete("/api/sessions/{session}", this::end);
  }

  private Current current(Context ctx) {
    Visitor visitor = Visitor.of(ctx);
    Identity identity = visitor.identity();
    return new Current(
        login.asks(),
        login.exposed(),
        identity == null ? null : identity.name(),
        visitor.role() == null ? null : visitor.role().key());
  }

  private void signIn(Context ctx) {
    SignInRequest request = Params.body(ctx, SignInRequest.class);
    requireLogin();
    Access.Attempt attempt =
        new Access.Attempt(
            needed("name", request.name()),
            needed("password", request.password()),
            ctx.ip(),
            Objects.requireNonNullElse(ctx.userAgent(), ""),
            Boolean.TRUE.equals(request.yearLong()));
    SignIn outcome = checked(attempt);
    if (outcome instanceof SignIn.Started started) {
      endEarlierSession(ctx);
      SessionCookie.send(ctx, started.session(), started.secret());
      ctx.json(new Current(true, false, started.person().name(), started.person().role().key()));
    } else if (outcome instanceof SignIn.Slowed slowed) {
      refuseForNow(ctx, slowed.pause());
    } else {
      LOG.warn("a sign-in from {} had a wrong name or password", ctx.ip());
      String words = "the name or the password is wrong";
      Problem.send(
          ctx, HttpStatus.UNAUTHORIZED, words, Problem.members(InputRule.WRONG_LOGIN.with()));
    }
  }

  private SignIn checked(Access.Attempt attempt) {
    try {
      return login.access().signIn(attempt, login.clock().instant());
    } catch (Passwords.Busy e) {
      throw new Refused(
          HttpStatus.SERVICE_UNAVAILABLE,
          "too many sign-ins wait already. Try again in a few seconds.",
          InputRule.BUSY.with());
    }
  }

  private void requireLogin() {
    if (!login.asks()) {
      throw new Refused(
          HttpStatus.CONFLICT,
          "this service asks for no login; the setting login turns it on",
          InputRule.NO_LOGIN.with());
    }
  }

  private static String needed(String field, @Nullable String value) {
    if (value == null || value.isEmpty()) {
      throw InvalidInput.missing(field);
    }
    return value;
  }

  /** Ends the session that the browser had before the sign-in. */
  private void endEarlierSession(Context ctx) {
    Identity before = Visitor.of(ctx).identity();
    if (before != null && before.session() != null) {
      login.access().endSession(before.session());
    }
  }

  private static void refuseForNow(Context ctx, Duration pause) {
    long seconds = pause.plusMillis(999).toSeconds();
    ctx.header("Retry-After", String.valueOf(seconds));
    Problem.send(
        ctx,
        HttpStatus.TOO_MANY_REQUESTS,
        "There were too many wrong passwords. Try again in " + seconds + " s.",
        Problem.members(InputRule.WAIT.with(seconds)));
  }

  private void signOut(Context ctx) {
    Identity identity = Visitor.of(ctx).identity();
    if (identity != null && identity.session() != null) {
      login.access().endSession(identity.session());
    }
    SessionCookie.remove(ctx);
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private void changePassword(Context ctx) {
    PasswordRequest request = Params.body(ctx, PasswordRequest.class);
    Identity identity = Visitor.of(ctx).identity();
    if (identity == null || identity.person() == null) {
      throw new Refused(
          HttpStatus.CONFLICT,
          "no person is signed in whose password could be changed",
          InputRule.SIGNED_OUT.with());
    }
    String current = needed("current", request.current());
    String password = needed("password", request.password());
    Instant now = login.clock().instant();
    Duration pause = login.access().changeOwnPassword(identity, current, password, ctx.ip(), now);
    if (pause.isZero()) {
      ctx.status(HttpStatus.NO_CONTENT);
    } else {
      refuseForNow(ctx, pause);
    }
  }

  /** One's own sessions; those of everybody for a visitor with the role own. */
  private List<SessionJson> sessions(Context ctx) {
    return login.access().sessions(login.clock().instant()).stream()
        .filter(session -> isVisible(ctx, session))
        .sorted(Comparator.comparing(Session::usedAt).reversed())
        .map(session -> json(ctx, session))
        .toList();
  }

  private static boolean isVisible(Context ctx, Session session) {
    Visitor visitor = Visitor.of(ctx);
    Identity identity = visitor.identity();
    return visitor.may(Role.OWN)
        || (identity != null && Objects.equals(identity.person(), session.person()));
  }

  private SessionJson json(Context ctx, Session session) {
    Identity identity = Visitor.of(ctx).identity();
    String person =
        login.access().people().stream()
            .filter(p -> p.id() == session.person())
            .map(Person::name)
            .findFirst()
            .orElse("");
    return new SessionJson(
        session.id(),
        person,
        session.startedAt(),
        session.usedAt(),
        session.endsAt(),
        session.yearLong(),
        session.address(),
        session.device(),
        identity != null && Objects.equals(identity.session(), session.id()));
  }

  private void end(Context ctx) {
    long id = Params.id(ctx, "session");
    Optional<Session> session = login.access().session(id).filter(found -> isVisible(ctx, found));
    if (session.isEmpty() || !login.access().endSession(id)) {
      throw new NotFound("there is no session " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }
}
