package tepidarium.web.sensors;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ConflictResponse;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.net.URI;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.access.SensorAccount;
import tepidarium.access.SensorAccounts.NewPassword;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.QrDrawing;
import tepidarium.web.sensors.BrokerLogins.SensorAddress;

/** Routes to list, make and remove accounts of sensors, and to replace passwords and topics. */
public final class SensorAccountRoutes {
  private static final String ACCOUNT = "account";

  private final BrokerLogins logins;
  private final Clock clock;

  record AccountJson(
      String name, List<String> topics, List<String> reads, Instant createdAt, boolean connected) {
    static AccountJson of(SensorAccount account, Set<String> connected) {
      return new AccountJson(
          account.name(),
          account.topics(),
          account.reads(),
          account.createdAt(),
          connected.contains(account.name()));
    }
  }

  record AccountsJson(
      boolean embedded,
      String anonymous,
      BrokerLogins.Refused refused,
      List<AccountJson> accounts) {}

  record NewAccountJson(AccountJson account, String password, String firmware, QrDrawing code) {}

  record AccountRequest(
      @Nullable String name, @Nullable List<String> topics, @Nullable List<String> reads) {}

  record TopicsRequest(@Nullable List<String> topics, @Nullable List<String> reads) {}

  public SensorAccountRoutes(BrokerLogins logins, Clock clock) {
    this.logins = logins;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/sensor-accounts", ctx -> ctx.json(accounts()));
    routes.post("/api/sensor-accounts", this::addAccount);
    routes.post("/api/sensor-accounts/{account}/password", this::replacePassword);
    routes.put("/api/sensor-accounts/{account}/topics", this::changeTopics);
    routes.delete("/api/sensor-accounts/{account}", this::remove);
  }

  private AccountsJson accounts() {
    Set<String> connected = logins.connected();
    return new AccountsJson(
        logins.embedded(),
        logins.anonymous(),
        logins.refused(),
        logins.accounts().all().stream()
            .map(account -> AccountJson.of(account, connected))
            .toList());
  }

  private void addAccount(Context ctx) {
    AccountRequest request = Params.body(ctx, AccountRequest.class);
    requireEmbedded();
    String name = request.name();
    if (name == null || name.isEmpty()) {
      throw InvalidInput.missing("name");
    }
    List<String> own = List.of(logins.address(null).rootTopic() + '/' + name + "/#");
    NewPassword added =
        logins
            .accounts()
            .add(
                name,
                filters("topics", request.topics(), own),
                filters("reads", request.reads(), List.of()),
                clock.instant());
    ctx.status(HttpStatus.CREATED).json(shownOnce(ctx, added));
  }

  private static List<String> filters(
      String field, @Nullable List<String> given, List<String> otherwise) {
    if (given != null && given.stream().anyMatch(Objects::isNull)) {
      throw new InvalidInput(field, "must not have an empty entry");
    }
    return given == null ? otherwise : given;
  }

  private void replacePassword(Context ctx) {
    requireEmbedded();
    String name = ctx.pathParam(ACCOUNT);
    NewPassword replaced = NotFound.ifMissing(() -> logins.accounts().replacePassword(name));
    ctx.json(shownOnce(ctx, replaced));
  }

  private void changeTopics(Context ctx) {
    TopicsRequest request = Params.body(ctx, TopicsRequest.class);
    requireEmbedded();
    String name = ctx.pathParam(ACCOUNT);
    SensorAccount changed =
        NotFound.ifMissing(
            () ->
                logins
                    .accounts()
                    .changeTopics(
                        name,
                        filters("topics", request.topics(), List.of()),
                        filters("reads", request.reads(), List.of())));
    ctx.json(AccountJson.of(changed, logins.connected()));
  }

  private void remove(Context ctx) {
    String name = ctx.pathParam(ACCOUNT);
    NotFound.ifMissing(
        () -> {
          logins.accounts().remove(name);
          return name;
        });
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private void requireEmbedded() {
    if (!logins.embedded()) {
      throw new ConflictResponse(
          "the broker is not part of this service; make the account at your broker");
    }
  }

  /** The account with its password, which no other answer holds. */
  private NewAccountJson shownOnce(Context ctx, NewPassword made) {
    String asked = ctx.host() == null ? null : URI.create("http://" + ctx.host()).getHost();
    SensorAddress address = logins.address(asked);
    String firmware = FirmwareSettings.of(made.account(), made.password(), address);
    // A certificate would make the code too dense for most cameras.
    String code = FirmwareSettings.of(made.account(), made.password(), address.withoutAuthority());
    return new NewAccountJson(
        AccountJson.of(made.account(), logins.connected()),
        made.password(),
        firmware,
        QrDrawing.of(code));
  }
}
