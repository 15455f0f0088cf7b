package tepidarium.app;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.channel.EmailNotifier;
import tepidarium.alert.notify.channel.MailServer;

/** The section {@code notices.email} of a settings file, before the checks. */
record EmailSection(
    @Nullable String host,
    @Nullable Integer port,
    @Nullable String tls,
    @Nullable String user,
    @Nullable String password,
    @Nullable String passwordEnv,
    @Nullable String passwordFile,
    @Nullable String from,
    @Nullable String to,
    @Nullable String escalateTo,
    @Nullable String certificateFile) {

  NoticesConfig.Email checked(ConfigProblems problems, Map<String, String> environment) {
    MailServer.Tls encryption = tls(problems);
    String secret =
        NoticeChecks.secret(
            problems, environment, "notices.email.password", password, passwordEnv, passwordFile);
    if (user == null) {
      problems.without("notices.email.user", "notices.email.password", secret);
    } else if (secret == null) {
      problems.add("notices.email.user needs a password, passwordEnv or passwordFile");
    }
    int defaultPort = encryption == MailServer.Tls.IMPLICIT ? 465 : 587;
    String sender = NoticeChecks.emailAddress(problems, "notices.email.from", from);
    MailServer server =
        new MailServer(
            NoticeChecks.required(problems, "notices.email.host", host, "localhost"),
            problems.whole("notices.email.port", port == null ? defaultPort : port, 1, 65_535),
            encryption,
            user,
            secret,
            sender,
            certificate(problems));
    List<String> receivers =
        Arrays.stream(
                NoticeChecks.required(
                        problems, "notices.email.to", to, NoticeChecks.PLACEHOLDER_EMAIL)
                    .split(",", -1))
            .map(String::strip)
            .filter(address -> !address.isEmpty())
            .map(address -> NoticeChecks.emailAddress(problems, "notices.email.to", address))
            .toList();
    String escalation =
        escalateTo == null
            ? null
            : NoticeChecks.emailAddress(problems, "notices.email.escalateTo", escalateTo);
    return new NoticesConfig.Email(server, receivers, escalation);
  }

  private MailServer.Tls tls(ConfigProblems problems) {
    try {
      return tls == null
          ? MailServer.Tls.STARTTLS
          : MailServer.Tls.valueOf(tls.toUpperCase(Locale.ROOT));
    } catch (IllegalArgumentException e) {
      problems.add("notices.email.tls must be starttls, implicit or none, not \"" + tls + '"');
      return MailServer.Tls.STARTTLS;
    }
  }

  private @Nullable String certificate(ConfigProblems problems) {
    if (certificateFile == null) {
      return null;
    }
    String pem = NoticeChecks.fileText(problems, "notices.email.certificateFile", certificateFile);
    try {
      MailServer trial =
          new MailServer("localhost", 25, MailServer.Tls.STARTTLS, null, null, "a@b", pem);
      new EmailNotifier("trial", trial, "a@b", false);
      return pem;
    } catch (IllegalArgumentException e) {
      problems.add("notices.email.certificateFile \"" + certificateFile + "\" " + e.getMessage());
      return null;
    }
  }
}
