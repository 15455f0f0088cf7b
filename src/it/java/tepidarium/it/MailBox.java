package tepidarium.it;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import org.subethamail.smtp.MessageContext;
import org.subethamail.smtp.MessageHandler;
import org.subethamail.smtp.RejectException;
import org.subethamail.smtp.auth.EasyAuthenticationHandlerFactory;
import org.subethamail.smtp.auth.LoginFailedException;
import org.subethamail.smtp.server.SMTPServer;

/**
 * A real SMTP server on loopback that asks for STARTTLS and a login, keeps what it takes, and can
 * refuse for a time.
 */
public final class MailBox implements AutoCloseable {
  public static final String USER = "tepidarium";
  public static final String PASSWORD = "a password";
  private static final String STORE = "changeit";

  private final List<String> mails = new CopyOnWriteArrayList<>();
  private final AtomicInteger attempts = new AtomicInteger();
  private final Path certificate;
  private final SMTPServer server;
  private volatile Function<String, String> refusal = to -> "";

  private MailBox(Path folder, int port) throws IOException, GeneralSecurityException {
    Path keys = folder.resolve("keys.p12");
    certificate = folder.resolve("certificate.pem");
    makeCertificate(keys);
    SSLContext context = context(keys);
    server =
        SMTPServer.port(port)
            .bindAddress(InetAddress.getLoopbackAddress())
            .enableTLS()
            .requireTLS()
            .requireAuth()
            .startTlsSocketFactory(context)
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
    try {
      Files.createDirectories(folder);
      return new MailBox(folder, port);
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private void makeCertificate(Path keys) {
    String tool = Path.of(System.getProperty("java.home"), "bin", "keytool").toString();
    String store = keys.toString();
    if (!Files.exists(keys)) {
      run(
          tool,
          "-genkeypair",
          "-alias",
          "mail",
          "-keyalg",
          "RSA",
          "-keystore",
          store,
          "-storepass",
          STORE,
          "-dname",
          "CN=127.0.0.1",
          "-ext",
          "san=ip:127.0.0.1",
          "-validity",
          "3650");
    }
    run(
        tool,
        "-exportcert",
        "-rfc",
        "-alias",
        "mail",
        "-keystore",
        store,
        "-storepass",
        STORE,
        "-file",
        certificate.toString());
  }

  private static void run(String... command) {
    Command.Ended ended = Command.run(List.of(command), new byte[0]);
    if (ended.status() != 0) {
      throw new IllegalStateException(ended.output());
    }
  }

  private static SSLContext context(Path keys) throws IOException, GeneralSecurityException {
    KeyStore store = KeyStore.getInstance(keys.toFile(), STORE.toCharArray());
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(store, STORE.toCharArray());
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(managers.getKeyManagers(), null, null);
    return context;
  }

  /** From now on refuses a receiver with these words, such as "450 later"; empty for none. */
  public void refuse(Function<String, String> wordsForReceiver) {
    refusal = wordsForReceiver;
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
      return null;
    }

    @Override
    public void done() {}
  }
}
