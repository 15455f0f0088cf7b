package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.IngestCounters;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectLog;
import tepidarium.ingest.SensorLimit;
import tepidarium.it.Certificates;
import tepidarium.it.Grower;
import tepidarium.it.Mosquitto;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;
import tepidarium.series.WriteResult;
import tepidarium.tls.ClientTls;

/** A real Mosquitto with TLS that asks each client for a certificate. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BrokerTlsIT {
  private static final Duration SOON = Duration.ofSeconds(20);

  private Path folder;
  private Mosquitto broker;
  private Mosquitto elsewhere;

  @BeforeAll
  void start(@TempDir Path temporary) throws IOException {
    folder = temporary;
    certificate("server", Certificates.HERE);
    certificate("elsewhere", "DNS:broker.example");
    certificate("client", Certificates.HERE);
    certificate("stranger", Certificates.HERE);
    broker = mosquitto("server");
    elsewhere = mosquitto("elsewhere");
  }

  private void certificate(String name, String hosts) throws IOException {
    Certificates.write(Files.createDirectories(folder.resolve(name)), name, hosts);
  }

  private Mosquitto mosquitto(String certificate) {
    return Mosquitto.started(
        folder.resolve("mosquitto-" + certificate),
        "certfile " + chain(certificate),
        "keyfile " + key(certificate),
        "cafile " + chain("client"),
        "require_certificate true");
  }

  private Path chain(String name) {
    return folder.resolve(name).resolve("chain.pem");
  }

  private Path key(String name) {
    return folder.resolve(name).resolve("key.pem");
  }

  @AfterAll
  void stop() {
    broker.close();
    elsewhere.close();
  }

  private ClientTls files(String ca, String client) {
    return new ClientTls(chain(ca), chain(client), key(client));
  }

  @Test
  void readingsArriveOverTlsWithAClientCertificate() {
    Map<String, Object> settings =
        Map.of(
            "brokerTls",
            Map.of(
                "ca", chain("server").toString(),
                "certificate", chain("client").toString(),
                "key", key("client").toString()));
    try (RunningService service =
        RunningService.start(
            RunningService.config(
                folder.resolve("data"),
                "ssl://localhost:" + broker.port(),
                broker.port(),
                settings),
            Clock.tickMillis(ZoneOffset.UTC))) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      Publisher.to(broker.port())
          .tls(chain("server"), chain("client"), key("client"))
          .send("tepidarium/jar-1", "{\"light\":0}");
      await().atMost(SOON).until(() -> grower.count("stored") == 1);
    }
  }

  @Test
  void anUnknownAuthorityIsNamedWithTheRemedy() {
    assertEquals(
        "the certificate of the broker at ssl://localhost:%d is not signed by an authority that the service trusts: name the certificate of its authority in the settings (brokerTls ca)"
            .formatted(broker.port()),
        problem(broker, files("stranger", "client")));
  }

  @Test
  void theHostMustBeInTheCertificate() {
    String words = problem(elsewhere, files("elsewhere", "client"));
    assertTrue(words.contains(" is for another host: use a name from the certificate"), words);
  }

  @Test
  void aRefusedClientCertificateIsNamedWithTheRemedy() {
    for (ClientTls refused :
        List.of(files("server", "stranger"), new ClientTls(chain("server"), null, null))) {
      String words = problem(broker, refused);
      assertTrue(words.contains(" ended the connection with TLS ("), words);
    }
  }

  /** Why a link with these files cannot connect. */
  private static String problem(Mosquitto to, ClientTls files) {
    String uri = "ssl://localhost:" + to.port();
    Clock clock = Clock.systemUTC();
    try (Intake intake = intake(clock);
        MqttLink link =
            new MqttLink(
                () -> new BrokerAddress(uri, null, null, files.socketFactory()),
                "tepidarium",
                List.of("tepidarium/#"),
                "link",
                new MqttLink.Limits(1_000, Duration.ofSeconds(30)),
                () -> 0,
                clock,
                intake)) {
      link.start(up -> {});
      return await().atMost(SOON).until(link::state, state -> state.contains(uri));
    }
  }

  private static Intake intake(Clock clock) {
    RejectLog nothing =
        new RejectLog() {
          @Override
          public void add(List<Reject> more) {}

          @Override
          public List<Line> newest(int most) {
            return List.of();
          }
        };
    return new Intake(
        new Decoder("tepidarium", List.of(), 1_000),
        new SensorLimit(1, 0),
        batch -> new WriteResult(batch.size(), 0, List.of()),
        new IngestCounters(nothing, "tepidarium", clock),
        press -> null,
        faults -> {},
        new HeardMessages(),
        readings -> {});
  }
}
