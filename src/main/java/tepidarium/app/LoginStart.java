package tepidarium.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.access.Access;
import tepidarium.access.GuessLimit.WrongGuess;
import tepidarium.access.Passwords;
import tepidarium.access.Role;
import tepidarium.records.AccessRecords;
import tepidarium.records.Database;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.access.Login;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * Prepares the login of the pages: makes a password for the owner at the first start, and takes new
 * passwords from the command {@code password}.
 */
final class LoginStart implements AutoCloseable {
  /** Name of the first person, unless the command {@code password} gave another. */
  static final String OWNER = "owner";

  private static final Logger LOG = LoggerFactory.getLogger(LoginStart.class);

  private final Config config;
  private final Access access;
  private final Clock clock;
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("new-password"));

  private LoginStart(Config config, Access access, Clock clock) {
    this.config = config;
    this.access = access;
    this.clock = clock;
  }

  static LoginStart start(Config config, Database records, Clock clock) {
    LoginStart start = new LoginStart(config, new Access(new AccessRecords(records)), clock);
    start.takeNewPassword();
    if (config.asksForLogin()) {
      start.makeFirstPassword();
    } else if (config.isExposed()) {
      LOG.warn(
          "the setting login is never, and httpHost is {}: everyone who reaches this port can"
              + " change everything, unless a proxy in front of it asks for a login",
          config.httpHost());
    }
    var unused = start.looking.scheduleWithFixedDelay(start::look, 1, 1, TimeUnit.SECONDS);
    return start;
  }

  private void makeFirstPassword() {
    if (access.people().stream().anyMatch(person -> person.role() == Role.OWN)) {
      return;
    }
    String password = Passwords.random();
    access.setOwner(OWNER, Passwords.hash(password));
    // Not in the log, which is often kept.
    System.err.println(
        String.join(
            System.lineSeparator(),
            "",
            "The pages ask for a login. This password is shown only once:",
            "  name      " + OWNER,
            "  password  " + password,
            "Change it on the page People, or with the command ./tepidarium password.",
            ""));
  }

  private void look() {
    try {
      if (NewPassword.exists(config.data())) {
        takeNewPassword();
      }
    } catch (RuntimeException e) {
      LOG.error("cannot set the new password; trying again", e);
    }
  }

  private void takeNewPassword() {
    Path data = config.data();
    try {
      NewPassword.take(data)
          .ifPresent(
              given -> {
                access.setOwner(given.name(), given.hash());
                LOG.info("a new password was set with the command password");
              });
    } catch (IOException e) {
      LOG.error(
          "cannot read the new password in {} ({}). Run the command password as the user that"
              + " the service runs as",
          data,
          e.toString());
    }
  }

  /** The login for the routes. */
  Login login() {
    return new Login(access, config.asksForLogin(), config.isExposed(), clock);
  }

  /** Tells the owner of wrong passwords, and of pages that are open to everybody. */
  Map<String, Part> health() {
    if (config.isExposed()) {
      return Map.of(
          "login",
          Part.up(
              "off by the setting login: everyone who reaches "
                  + config.httpHost()
                  + " can change everything, unless a proxy in front of it asks for a login"));
    }
    if (!config.asksForLogin()) {
      return Map.of();
    }
    Instant now = clock.instant();
    List<WrongGuess> wrong = access.guesses().wrongGuesses(now);
    String latest =
        wrong.isEmpty()
            ? ""
            : "; the latest at " + wrong.get(0).at() + " from " + wrong.get(0).address();
    return Map.of(
        "login", Part.up("on; wrong passwords in the past 24 h: " + wrong.size() + latest));
  }

  @Override
  public void close() {
    looking.shutdownNow();
  }
}
