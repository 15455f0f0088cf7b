package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.ingest.mqtt.BrokerAddress;
import tepidarium.ingest.mqtt.BrokerProbe;
import tepidarium.it.Certificates;
import tepidarium.it.LoginService;
import tepidarium.it.Nginx;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.tls.ClientTls;
import tepidarium.tls.WatchedCertificate;
import tepidarium.web.server.PagesTls;
import tepidarium.web.server.WaitingPages;
import tepidarium.web.server.WebServer;

/** The pages over TLS: with files of the service's own, and behind nginx. */
class PagesTlsIT {
  @TempDir private Path folder;

  private RunningService start(Map<String, ?> settings) {
    return RunningService.start(
        RunningService.config(folder.resolve("data"), "embedded", Ports.free(), settings),
        Clock.tickMillis(ZoneOffset.UTC));
  }

  /** Trusts the certificate that lies in the folder now, and no other. */
  private SSLContext trust() throws GeneralSecurityException, IOException {
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    try (InputStream pem = Files.newInputStream(folder.resolve("chain.pem"))) {
      trusted.setCertificateEntry(
          "one", CertificateFactory.getInstance("X.509").generateCertificate(pem));
    }
    TrustManagerFactory managers =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    managers.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, managers.getTrustManagers(), null);
    return context;
  }

  private Visit visit(String base) throws GeneralSecurityException, IOException {
    HttpClient client = HttpClient.newBuilder().sslContext(trust()).build();
    return new Visit(client, base, Map.of());
  }

  @Test
  void aRenewedCertificateIsUsedWithoutARestart() throws Exception {
    Certificates.write(folder, "first");
    Map<String, String> files =
        Map.of(
            "certificate", folder.resolve("chain.pem").toString(),
            "key", folder.resolve("key.pem").toString());
    int sensorPort = Ports.free();
    try (RunningService service = start(Map.of("tls", files, "mqttTlsPort", sensorPort))) {
      String base = service.url().replace("http://", "https://");
      Visit.Answer health = visit(base).get("/api/health");
      assertEquals("up", health.json().at("/parts/tls/status").asText());
      assertEquals("max-age=86400", health.header("Strict-Transport-Security"));
      assertEquals(200, visit(base).get("/").status());

      Files.writeString(folder.resolve("key.pem"), "damaged");
      await().atMost(Duration.ofSeconds(15)).until(() -> statusOfTls(base).equals("down"));
      Certificates.write(folder, "second");
      await().atMost(Duration.ofSeconds(15)).until(() -> nameOf(base).equals("CN=second"));
      assertEquals("up", statusOfTls(base));
      assertEquals("CN=second", nameAt("127.0.0.1", sensorPort));
      assertBrokerIsReachedOverTls(sensorPort);
      Publisher.to(sensorPort)
          .tls(folder.resolve("chain.pem"))
          .send("tepidarium/over-tls", "{\"light\":0}");
      await()
          .atMost(Duration.ofSeconds(15))
          .until(() -> visit(base).get("/api/sensors/over-tls").status() == 200);
    }
  }

  /** By a client that trusts the certificate, and by no other. */
  private void assertBrokerIsReachedOverTls(int port) {
    String uri = "ssl://localhost:" + port;
    ClientTls trusting = new ClientTls(folder.resolve("chain.pem"), null, null);
    BrokerAddress known = new BrokerAddress(uri, null, null, trusting.socketFactory());
    try (BrokerProbe other = BrokerProbe.start(new BrokerAddress(uri, null, null, null));
        BrokerProbe probe = BrokerProbe.start(known)) {
      await().atMost(Duration.ofSeconds(15)).until(probe::reached);
      assertFalse(other.reached());
    }
  }

  @Test
  void aServiceThatWaitsAnswersOverTls() throws Exception {
    Certificates.write(folder, "waiting");
    try (WatchedCertificate certificate =
            new WatchedCertificate(
                folder.resolve("chain.pem"), folder.resolve("key.pem"), Clock.systemUTC());
        WaitingPages pages =
            WaitingPages.start(
                new WebServer.Address(
                    "127.0.0.1", 0, Set.of(), Set.of(), new PagesTls(certificate)))) {
      pages.waitFor("barn", null);
      Visit.Answer answer = visit("https://127.0.0.1:" + pages.port()).get("/api/containers");
      assertEquals(503, answer.status());
      assertTrue(answer.body().contains("barn works"), answer.body());
    }
  }

  private String statusOfTls(String base) throws GeneralSecurityException, IOException {
    return visit(base).get("/api/health").json().at("/parts/tls/status").asText();
  }

  /** The name in the certificate that a new connection gets; empty if it is not the trusted one. */
  private String nameOf(String base) throws GeneralSecurityException {
    URI address = URI.create(base);
    return nameAt(address.getHost(), address.getPort());
  }

  private String nameAt(String host, int port) throws GeneralSecurityException {
    try (SSLSocket socket = (SSLSocket) trust().getSocketFactory().createSocket(host, port)) {
      socket.startHandshake();
      X509Certificate certificate = (X509Certificate) socket.getSession().getPeerCertificates()[0];
      return certificate.getSubjectX500Principal().getName();
    } catch (IOException e) {
      return "";
    }
  }

  @Test
  void loginCookieAndLiveStreamWorkThroughNginx() throws Exception {
    try (LoginService service =
            LoginService.start(folder.resolve("data"), Map.of("proxies", List.of("127.0.0.1")));
        Nginx nginx = Nginx.start(folder, location(service.url()))) {
      Visit visit = visit(nginx.url()).with("Origin", nginx.url()).from("203.0.113.66");
      assertEquals(401, visit.signIn("owner", "a wrong password", false).status());
      Visit.Answer right = visit.signIn("owner", service.password(), true);
      String cookie = right.header("Set-Cookie");
      assertTrue(cookie.contains("; Secure"), cookie);
      Visit signedIn = visit.with("Cookie", right.cookie());
      Visit.Answer added =
          signedIn.call("POST", "/api/containers", "{\"name\":\"Jar\",\"kind\":\"jar\"}");
      assertEquals(201, added.status(), added.body());
      String latest = "/wrongPasswords/latest/0/address";
      assertEquals("203.0.113.66", signedIn.get("/api/people").json().at(latest).asText());
      assertEquals("event: hello", firstEvent(signedIn));
    }
  }

  private static String firstEvent(Visit visit) throws IOException, InterruptedException {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(visit.base() + "/api/live"))
            .timeout(Duration.ofSeconds(10))
            .header("Accept", "text/event-stream")
            .header("Cookie", visit.headers().get("Cookie"))
            .build();
    HttpResponse<InputStream> stream = visit.client().send(request, BodyHandlers.ofInputStream());
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(stream.body(), StandardCharsets.UTF_8))) {
      return lines.lines().filter(line -> line.startsWith("event")).findFirst().orElse("");
    }
  }

  /** The block of the documentation, with the address of the service under test. */
  private static String location(String service) throws IOException {
    String page = Files.readString(Path.of("src/docs/operation.md"));
    String block = page.substring(page.indexOf("  location / {"), page.indexOf("Caddy sets"));
    return block.substring(0, block.indexOf("  }") + 3).replace("http://127.0.0.1:8080", service);
  }
}
