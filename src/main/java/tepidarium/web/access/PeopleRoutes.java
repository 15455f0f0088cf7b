package tepidarium.web.access;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.access.Access;
import tepidarium.access.ApiToken;
import tepidarium.access.GuessLimit.WrongGuess;
import tepidarium.access.Identity;
import tepidarium.access.Person;
import tepidarium.access.Role;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.Visitor;

/** Routes to list, add, change and remove people and tokens. */
public final class PeopleRoutes {
  private static final int MAX_SHOWN_GUESSES = 20;

  private final Login login;

  record PersonJson(long id, String name, String role, long sessions) {}

  record GuessJson(Instant at, String address, @Nullable String person) {}

  record Guesses(int lastDay, List<GuessJson> latest) {}

  record PeopleJson(List<PersonJson> people, Guesses wrongPasswords) {}

  record PersonRequest(@Nullable String name, @Nullable String role, @Nullable String password) {}

  record PersonChange(@Nullable String role, @Nullable String password) {}

  record TokenJson(
      long id,
      String name,
      String role,
      Instant createdAt,
      Instant endsAt,
      @Nullable Instant usedAt) {
    static TokenJson of(ApiToken token) {
      return new TokenJson(
          token.id(),
          token.name(),
          token.role().key(),
          token.createdAt(),
          token.endsAt(),
          token.usedAt());
    }
  }

  record NewTokenJson(TokenJson token, String secret) {}

  record TokenRequest(@Nullable String name, @Nullable String role, @Nullable Integer days) {}

  public PeopleRoutes(Login login) {
    this.login = login;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/people", ctx -> ctx.json(people()));
    routes.post("/api/people", this::addPerson);
    routes.put("/api/people/{person}", this::changePerson);
    routes.delete("/api/people/{person}", this::removePerson);
    routes.get("/api/tokens", ctx -> ctx.json(tokens()));
    routes.post("/api/tokens", this::addToken);
    routes.delete("/api/tokens/{token}", this::removeToken);
  }

  private PeopleJson people() {
    Access access = login.access();
    List<WrongGuess> wrong = access.guesses().wrongGuesses(login.clock().instant());
    List<GuessJson> latest =
        wrong.stream()
            .limit(MAX_SHOWN_GUESSES)
            .map(guess -> new GuessJson(guess.at(), guess.address(), guess.person()))
            .toList();
    return new PeopleJson(
        access.people().stream().map(this::json).toList(), new Guesses(wrong.size(), latest));
  }

  private PersonJson json(Person person) {
    long sessions =
        login.access().sessions(login.clock().instant()).stream()
            .filter(session -> session.person() == person.id())
            .count();
    return new PersonJson(person.id(), person.name(), person.role().key(), sessions);
  }

  private void addPerson(Context ctx) {
    PersonRequest request = Params.body(ctx, PersonRequest.class);
    Person added =
        login
            .access()
            .addPerson(
                needed("name", request.name()),
                role(request.role()),
                needed("password", request.password()));
    ctx.status(HttpStatus.CREATED).json(json(added));
  }

  private void changePerson(Context ctx) {
    PersonChange change = Params.body(ctx, PersonChange.class);
    Role role = change.role() == null ? null : role(change.role());
    long id = Params.id(ctx, "person");
    Identity visitor = Visitor.of(ctx).identity();
    Long kept = visitor == null ? null : visitor.session();
    ctx.json(
        json(
            NotFound.ifMissing(
                () -> login.access().changePerson(id, role, change.password(), kept))));
  }

  private void removePerson(Context ctx) {
    long id = Params.id(ctx, "person");
    NotFound.ifMissing(
        () -> {
          login.access().removePerson(id);
          return id;
        });
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private List<TokenJson> tokens() {
    return login.access().tokens().stream().map(TokenJson::of).toList();
  }

  private void addToken(Context ctx) {
    TokenRequest request = Params.body(ctx, TokenRequest.class);
    Access.NewToken added =
        login
            .access()
            .addToken(
                needed("name", request.name()),
                role(request.role()),
                request.days() == null ? 0 : request.days(),
                login.clock().instant());
    ctx.status(HttpStatus.CREATED)
        .json(new NewTokenJson(TokenJson.of(added.token()), added.secret()));
  }

  private void removeToken(Context ctx) {
    long id = Params.id(ctx, "token");
    if (!login.access().removeToken(id)) {
      throw new NotFound("there is no token " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private static String needed(String field, @Nullable String value) {
    if (value == null || value.isEmpty()) {
      throw InvalidInput.missing(field);
    }
    return value;
  }

  private static Role role(@Nullable String key) {
    return Role.ofKey(key == null ? "" : key)
        .orElseThrow(() -> new InvalidInput("role", "must be look, tend or own"));
  }
}
