package tepidarium.it;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import javax.net.ssl.SSLContext;
import org.subethamail.smtp.MessageContext;
import org.subethamail.smtp.MessageHandler;
import org.subethamail.smtp.RejectException;
import org.subethamail.smtp.auth.EasyAuthenticationHandlerFactory;
import org.subethamail.smtp.auth.LoginFailedException;
import org.subethamail.smtp.server.SMTPServer;

/**
 * A real SMTP server on loopback that asks for STARTTLS and a login, keeps what it takes, and can
 * refuse or be slow to answer for a time.
 */
public final class MailBox implements AutoCloseable {
  public static final String USER = "tepidarium";
  public static final String PASSWORD = "a password";

  /** One key for all mail servers of a test process, since making one takes a second. */
  private static final MailKeys KEYS = MailKeys.made();

  private final List<String> mails = new CopyOnWriteArrayList<>();
  private final AtomicInteger attempts = new AtomicInteger();
  private final Path certificate;
  private final SMTPServer server;
  private volatile Function<String, String> refusal = to -> "";
  private volatile CountDownLatch answer = new CountDownLatch(0);

  private MailBox(Path folder, int port, boolean encrypted)
      throws IOException, GeneralSecurityException {
    certificate = folder.resolve("certificate.pem");
    Files.writeString(certificate, KEYS.pem());
    SSLContext context = KEYS.context();
    SMTPServer.Builder builder =
        SMTPServer.port(port).bindAddress(InetAddress.getLoopbackAddress()).requireAuth();
    if (encrypted) {
      builder.enableTLS().requireTLS().startTlsSocketFactory(context);
    }
    server =
        builder
            .authenticationHandlerFactory(
                new EasyAuthenticationHandlerFactory(
                    (user, password, session) -> {
                      if (!USER.equals(user) || !PASSWORD.equals(password)) {
                        throw new LoginFailedException();
                      }
                    }))
            .messageHandlerFactory(Handler::new)
            .build();
    server.start();
  }

  public static MailBox open(Path folder, int port) {
    return open(folder, port, true);
  }

  /** Opens one that takes mails without encryption, but with a login. */
  public static MailBox withoutTls(Path folder, int port) {
    return open(folder, port, false);
  }

  private static MailBox open(Path folder, int port, boolean encrypted) {
    try {
      Files.createDirectories(folder);
      return new MailBox(folder, port, encrypted);
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  /** From now on refuses a receiver with these words, such as "450 later"; empty for none. */
  public void refuse(Function<String, String> wordsForReceiver) {
    refusal = wordsForReceiver;
  }

  /** From now on keeps each mail, but does not tell so to its sender before {@link #answer}. */
  public void keepWithoutAnswer() {
    answer = new CountDownLatch(1);
  }

  /** Answers the waiting senders, and the next ones at once. */
  public void answer() {
    answer.countDown();
  }

  /** The mails that were taken, as they came, with the receiver in front. */
  public List<String> mails() {
    return List.copyOf(mails);
  }

  /** How often somebody tried to hand one over. */
  public int attempts() {
    return attempts.get();
  }

  public Path certificate() {
    return certificate;
  }

  public int port() {
    return server.getPortAllocated();
  }

  @Override
  public void close() {
    answer();
    server.stop();
  }

  private final class Handler implements MessageHandler {
    private final StringBuilder received = new StringBuilder();

    Handler(MessageContext context) {}

    @Override
    public void from(String sender) {
      attempts.incrementAndGet();
    }

    @Override
    public void recipient(String to) throws RejectException {
      String words = refusal.apply(to);
      if (!words.isEmpty()) {
        throw new RejectException(Integer.parseInt(words.substring(0, 3)), words.substring(4));
      }
      received.append("TO ").append(to).append('\n');
    }

    @Override
    public String data(InputStream data) throws IOException {
      received.append(new String(data.readAllBytes(), StandardCharsets.UTF_8));
      mails.add(received.toString());
      awaitAnswer();
      return null;
    }

    private void awaitAnswer() throws IOException {
      try {
        answer.await();
      } catch (InterruptedException e) {
        throw new IOException(e);
      }
    }

    @Override
    public void done() {}
  }
}
