package tepidarium.alert.notify.channel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.DeliveryOutcome.Result;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.NoticeKind;
import tepidarium.it.MailBox;
import tepidarium.it.Ports;

/** E-mail against a real SMTP server with STARTTLS and a login. */
class EmailIT {
  private static final Instant NOW = Instant.parse("2026-03-04T02:21:00Z");

  @TempDir private Path folder;
  private MailBox box;

  @BeforeEach
  void open() {
    box = MailBox.open(folder, Ports.free());
  }

  @AfterEach
  void close() {
    box.close();
  }

  private static Delivery delivery() {
    Notice notice =
        new Notice(
            7,
            NoticeKind.RAISED,
            Priority.HIGH,
            NOW,
            "Jar Säule is too cold",
            "24.5 °C at worst.\n",
            null,
            List.of());
    return new Delivery(9, notice, "email", Delivery.State.WAITING, 0, NOW, null, null);
  }

  private static DeliveryOutcome send(int port, MailServer.Tls tls, String password, String pem) {
    return send(port, tls, password, pem, "20000");
  }

  private static DeliveryOutcome send(
      int port, MailServer.Tls tls, String password, String pem, String answerLimitMs) {
    MailServer server =
        new MailServer("127.0.0.1", port, tls, MailBox.USER, password, "shelf@example.org", pem);
    return new EmailNotifier("email", server, "ida@example.org", false, answerLimitMs)
        .deliver(delivery());
  }

  private DeliveryOutcome send() throws IOException {
    return send(box.port(), MailServer.Tls.STARTTLS, MailBox.PASSWORD, pem());
  }

  private String pem() throws IOException {
    return Files.readString(box.certificate());
  }

  @Test
  void itArrivesAsItWasWritten() throws IOException {
    DeliveryOutcome outcome = send();
    assertEquals(Result.DELIVERED, outcome.result(), outcome.words());
    String mail = box.mails().get(0);
    assertTrue(mail.startsWith("TO ida@example.org\n"), mail);
    // RFC 2047 for the subject; the umlaut in UTF-8 is C3 A4.
    assertTrue(mail.contains("Subject: =?UTF-8?Q?Jar_S=C3=A4ule_is_too_cold?="), mail);
    assertTrue(mail.contains("Message-ID: <tepidarium.1772590860000.9@example.org>"), mail);
    assertTrue(mail.contains("Auto-Submitted: auto-generated"), mail);
    assertTrue(mail.contains("From: shelf@example.org"), mail);
    // Quoted-printable or 8 bit, whichever the server offers.
    assertTrue(mail.contains("24.5 =C2=B0C") || mail.contains("24.5 °C"), mail);
  }

  @Test
  void aServerThatRefusesAtFirstGetsTheNoticeLater() throws IOException {
    box.refuse(to -> "450 busy");
    DeliveryOutcome refused = send();
    assertEquals(Result.LATER, refused.result());
    assertTrue(refused.words().contains("busy"), refused.words());
    assertEquals(List.of(), box.mails());
    box.refuse(to -> "");
    assertEquals(Result.DELIVERED, send().result());
    assertEquals(1, box.mails().size());
  }

  @Test
  void anAddressThatIsRefusedForGoodIsGivenUp() throws IOException {
    box.refuse(to -> "550 no such person");
    DeliveryOutcome outcome = send();
    assertEquals(Result.REFUSED, outcome.result());
    assertTrue(outcome.words().contains("no such person"), outcome.words());
  }

  @Test
  void aWrongPasswordIsReportedWithoutShowingIt() throws IOException {
    DeliveryOutcome outcome = send(box.port(), MailServer.Tls.STARTTLS, "wrong secret", pem());
    assertEquals(Result.LATER, outcome.result());
    assertTrue(outcome.words().contains("user and password"), outcome.words());
    assertTrue(!outcome.words().contains("wrong secret"), outcome.words());
  }

  @Test
  void noEmailIsSentToAServerWithAnUntrustedCertificate() {
    DeliveryOutcome outcome = send(box.port(), MailServer.Tls.STARTTLS, MailBox.PASSWORD, null);
    assertEquals(Result.LATER, outcome.result());
    assertEquals(0, box.attempts());
  }

  @Test
  void withoutEncryptionSuchAServerIsNotUsed() throws IOException {
    DeliveryOutcome outcome = send(box.port(), MailServer.Tls.NONE, MailBox.PASSWORD, pem());
    assertEquals(Result.LATER, outcome.result());
    assertEquals(0, box.attempts());
  }

  @Test
  void aHangingServerIsAbandonedAfterTheTimeLimit() throws IOException {
    try (ServerSocket silent = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
      DeliveryOutcome outcome =
          send(silent.getLocalPort(), MailServer.Tls.STARTTLS, MailBox.PASSWORD, pem(), "300");
      assertEquals(Result.LATER, outcome.result());
      assertTrue(outcome.words().contains("127.0.0.1"), outcome.words());
    }
  }

  @Test
  void anUnreachableServerIsReported() throws IOException {
    DeliveryOutcome outcome = send(Ports.free(), MailServer.Tls.IMPLICIT, MailBox.PASSWORD, pem());
    assertEquals(Result.LATER, outcome.result());
  }
}
