package tepidarium.alert.notify.channel;

import jakarta.mail.Address;
import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.util.Date;
import java.util.Properties;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManagerFactory;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSenderFailedException;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.Notifier;

/**
 * Sends plain text e-mail to one address over SMTP (RFC 5321). A delivery succeeds when the server
 * has accepted the message. Each attempt of a delivery has the same Message-ID, so mail programs
 * can detect duplicates. The Auto-Submitted header prevents automatic replies (RFC 3834).
 * Thread-safe.
 */
public final class EmailNotifier implements Notifier {
  private static final String CONNECT_TIMEOUT_MS = "15000";
  private static final String RESPONSE_TIMEOUT_MS = "20000";

  private final String name;
  private final MailServer server;
  private final String to;
  private final boolean escalation;
  private final Properties properties;

  /**
   * Creates the notifier; does not connect.
   *
   * @param to the recipient's address
   * @param escalation whether this is the second address, used for escalation only
   * @throws IllegalArgumentException when the server's certificates cannot be read
   */
  public EmailNotifier(String name, MailServer server, String to, boolean escalation) {
    this(name, server, to, escalation, RESPONSE_TIMEOUT_MS);
  }

  EmailNotifier(
      String name, MailServer server, String to, boolean escalation, String answerLimitMs) {
    this.name = name;
    this.server = server;
    this.to = to;
    this.escalation = escalation;
    this.properties = properties(server, answerLimitMs);
  }

  private static Properties properties(MailServer server, String answerLimitMs) {
    String protocol = server.tls() == MailServer.Tls.IMPLICIT ? "smtps" : "smtp";
    String prefix = "mail." + protocol + '.';
    Properties properties = new Properties();
    properties.put("mail.transport.protocol", protocol);
    properties.put(prefix + "host", server.host());
    properties.put(prefix + "port", String.valueOf(server.port()));
    properties.put(prefix + "auth", String.valueOf(server.user() != null));
    properties.put(prefix + "connectiontimeout", CONNECT_TIMEOUT_MS);
    properties.put(prefix + "timeout", answerLimitMs);
    properties.put(prefix + "writetimeout", answerLimitMs);
    properties.put(prefix + "quitwait", "false");
    boolean starttls = server.tls() == MailServer.Tls.STARTTLS;
    properties.put(prefix + "starttls.enable", String.valueOf(starttls));
    properties.put(prefix + "starttls.required", String.valueOf(starttls));
    properties.put(prefix + "ssl.checkserveridentity", "true");
    String pem = server.certificatePem();
    if (pem != null) {
      properties.put(prefix + "ssl.socketFactory", trusting(pem));
    }
    return properties;
  }

  private static SSLSocketFactory trusting(String pem) {
    try {
      KeyStore trusted = KeyStore.getInstance(KeyStore.getDefaultType());
      trusted.load(null, null);
      ByteArrayInputStream text = new ByteArrayInputStream(pem.getBytes(StandardCharsets.UTF_8));
      int number = 0;
      for (Certificate each : CertificateFactory.getInstance("X.509").generateCertificates(text)) {
        trusted.setCertificateEntry("certificate-" + ++number, each);
      }
      TrustManagerFactory managers =
          TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
      managers.init(trusted);
      SSLContext context = SSLContext.getInstance("TLS");
      context.init(null, managers.getTrustManagers(), null);
      return context.getSocketFactory();
    } catch (GeneralSecurityException | IOException e) {
      throw new IllegalArgumentException("holds no certificate that can be read", e);
    }
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public String kind() {
    return "email";
  }

  @Override
  public String target() {
    return to + " through " + server;
  }

  @Override
  public boolean onlyForEscalation() {
    return escalation;
  }

  @Override
  public DeliveryOutcome deliver(Delivery delivery) {
    Session session = Session.getInstance(properties);
    try (Transport transport = session.getTransport()) {
      MimeMessage message = message(session, delivery);
      transport.connect(server.user(), server.password());
      transport.sendMessage(message, message.getAllRecipients());
      return DeliveryOutcome.delivered(
          "the server " + server.host() + " has accepted the message for " + to);
    } catch (AuthenticationFailedException e) {
      return DeliveryOutcome.later(
          "the server " + server + " rejects this user and password: " + words(e));
    } catch (MessagingException e) {
      return refusedForGood(e)
          ? DeliveryOutcome.refused(
              "the server " + server.host() + " rejects the message: " + words(e))
          : DeliveryOutcome.later("cannot deliver through " + server + ": " + words(e));
    }
  }

  private MimeMessage message(Session session, Delivery delivery) throws MessagingException {
    Notice notice = delivery.notice();
    MimeMessage message = new Numbered(session, messageId(delivery));
    message.setFrom(new InternetAddress(server.from(), true));
    message.setRecipients(Message.RecipientType.TO, new Address[] {new InternetAddress(to, true)});
    message.setSubject(notice.subject(), "UTF-8");
    message.setText(notice.text(), "UTF-8");
    message.setSentDate(Date.from(notice.createdAt()));
    message.setHeader("Auto-Submitted", "auto-generated");
    return message;
  }

  private String messageId(Delivery delivery) {
    String domain = server.from().substring(server.from().indexOf('@') + 1);
    return "<tepidarium."
        + delivery.notice().createdAt().toEpochMilli()
        + '.'
        + delivery.id()
        + '@'
        + domain
        + '>';
  }

  /** Whether the server rejects the address permanently; any other failure is retried. */
  private static boolean refusedForGood(MessagingException e) {
    for (Exception next = e; next instanceof MessagingException at; next = at.getNextException()) {
      if (next instanceof SMTPAddressFailedException address) {
        return address.getReturnCode() / 100 == 5;
      }
      if (next instanceof SMTPSenderFailedException sender) {
        return sender.getReturnCode() / 100 == 5;
      }
    }
    return false;
  }

  /** The message of the innermost exception, which is the most specific. */
  private static String words(MessagingException e) {
    Exception deepest = e;
    for (Exception next = e; next != null; next = next(next)) {
      deepest = next;
    }
    String message = deepest.getMessage();
    return message == null ? deepest.getClass().getSimpleName() : message.strip();
  }

  private static @Nullable Exception next(Exception e) {
    if (e instanceof MessagingException at) {
      return at.getNextException();
    }
    return e.getCause() instanceof Exception cause ? cause : null;
  }

  /** A message with a fixed Message-ID. */
  private static final class Numbered extends MimeMessage {
    private final String id;

    Numbered(Session session, String id) {
      super(session);
      this.id = id;
    }

    @Override
    protected void updateMessageID() throws MessagingException {
      setHeader("Message-ID", id);
    }
  }
}
