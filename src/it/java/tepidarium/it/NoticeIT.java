package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From cold readings to e-mails, over kills and with a mail server that is away at first. */
class NoticeIT {
  private static final Duration SOON = Duration.ofSeconds(60);

  @TempDir private Path folder;
  private final int mqttPort = Ports.free();
  private final int mailPort = Ports.free();

  private ServiceProcess start(int collectSeconds) throws IOException {
    Path config = folder.resolve("tepidarium.yaml");
    Files.writeString(
        config,
        """
        notices:
          publicUrl: http://192.168.1.20:8080/
          collectSeconds: %d
          email:
            host: 127.0.0.1
            port: %d
            user: %s
            passwordEnv: MAIL_PASSWORD
            from: shelf@example.org
            to: ida@example.org
            escalateTo: ben@example.org
            certificateFile: %s
        """
            .formatted(
                collectSeconds, mailPort, MailBox.USER, folder.resolve("mail/certificate.pem")));
    return ServiceProcess.start(
        folder.resolve("data"),
        mqttPort,
        "embedded",
        Map.of("MAIL_PASSWORD", MailBox.PASSWORD),
        "--config=" + config);
  }

  private MailBox mail() {
    return MailBox.open(folder.resolve("mail"), mailPort);
  }

  private static String backlog(double celsius) {
    Instant now = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    StringBuilder backlog = new StringBuilder("[");
    for (int halfMinute = 40; halfMinute >= 0; halfMinute--) {
      backlog.append(
          "{\"temperature\":%s,\"at\":\"%s\"}%s"
              .formatted(celsius, now.minusSeconds(30L * halfMinute), halfMinute == 0 ? "]" : ","));
    }
    return backlog.toString();
  }

  private void makeCold(Grower grower, int first, int last) {
    for (int bag = first; bag <= last; bag++) {
      String container = grower.container("Bag " + bag);
      grower.place("sensor-" + bag, container, Instant.now().minusSeconds(3_600));
    }
    for (int bag = first; bag <= last; bag++) {
      Publisher.to(mqttPort).send("tepidarium/sensor-" + bag, backlog(24.5));
    }
  }

  private static List<JsonNode> deliveries(Grower grower, String state) {
    return grower
        .api()
        .get("/api/notices?state=" + state)
        .valueStream()
        .flatMap(sent -> sent.get("deliveries").valueStream())
        .filter(delivery -> delivery.get("notifier").textValue().equals("email"))
        .toList();
  }

  @Test
  void aColdBagSendsOneEmailWhateverIsKilledOrAwayAndAShelfOneMore() throws IOException {
    mail().close();
    try (ServiceProcess service = start(1)) {
      Grower grower = service.grower();
      makeCold(grower, 1, 1);
      await("the mail server is away")
          .atMost(SOON)
          .until(
              () ->
                  deliveries(grower, "waiting").stream()
                      .anyMatch(each -> each.get("attempts").intValue() >= 1));
      assertTrue(grower.part("notices").startsWith("down: email: 1 wait"), grower.part("notices"));
      assertTrue(
          deliveries(grower, "waiting").get(0).get("words").textValue().contains("127.0.0.1"));
      service.kill();
    }
    try (MailBox box = mail()) {
      try (ServiceProcess service = start(1)) {
        await().atMost(SOON).until(() -> box.mails().size() == 1);
        await().atMost(SOON).until(() -> deliveries(service.grower(), "delivered").size() == 1);
        service.kill();
      }
      String mail = box.mails().get(0);
      assertTrue(mail.contains("TO ida@example.org"), mail);
      assertTrue(mail.contains("Bag 1 is colder than 29.5"), mail);
      assertTrue(mail.contains("of heat lost so far"), mail);
      assertTrue(mail.contains("http://192.168.1.20:8080/container.html?id"), mail);
      try (ServiceProcess service = start(3)) {
        Grower grower = service.grower();
        JsonNode tested = grower.api().post("/api/notifiers/escalation/test", "");
        assertTrue(tested.get("delivered").booleanValue(), tested.toString());
        assertTrue(box.mails().get(1).contains("TO ben@example.org"));
        assertFalse(grower.api().get("/api/notifiers").toString().contains(MailBox.PASSWORD));
        aPowerCutSendsOneEmailAboutTheShelf(grower, box);
      }
    }
  }

  @Test
  void aMailWithoutAnAnswerBeforeTheKillIsPerhapsSentAndNotSentAgain() throws IOException {
    try (MailBox box = mail()) {
      box.keepWithoutAnswer();
      try (ServiceProcess service = start(1)) {
        makeCold(service.grower(), 1, 1);
        await().atMost(SOON).until(() -> box.mails().size() == 1);
        service.kill();
      }
      box.answer();
      try (ServiceProcess service = start(1)) {
        Grower grower = service.grower();
        makeCold(grower, 2, 2);
        await().atMost(SOON).until(() -> deliveries(grower, "delivered").size() == 1);
        List<JsonNode> perhaps = deliveries(grower, "perhaps-sent");
        assertEquals(1, perhaps.size());
        assertEquals(1, perhaps.get(0).get("attempts").intValue());
        assertEquals(2, box.mails().size());
        assertTrue(box.mails().get(0).contains("Bag 1 is colder"), box.mails().get(0));
        assertTrue(box.mails().get(1).contains("Bag 2 is colder"), box.mails().get(1));
        assertEquals(
            Set.of("delivered", "perhaps-sent"),
            grower
                .api()
                .get("/api/alerts/notices")
                .valueStream()
                .flatMap(alert -> alert.get("notices").valueStream())
                .map(notice -> notice.get("delivery"))
                .filter(delivery -> delivery.get("notifier").textValue().equals("email"))
                .map(delivery -> delivery.get("state").textValue())
                .collect(Collectors.toSet()));
      }
    }
  }

  private void aPowerCutSendsOneEmailAboutTheShelf(Grower grower, MailBox box) {
    makeCold(grower, 2, 6);
    await().atMost(SOON).until(() -> coldBags(grower).size() == 6);
    await().atMost(SOON).until(() -> deliveries(grower, "waiting").isEmpty());
    List<String> mails = box.mails().subList(2, box.mails().size());
    // On a slow machine the last bags may have missed the first message; never one message each.
    assertTrue(!mails.isEmpty() && mails.size() <= 2, mails.toString());
    assertTrue(mails.get(0).contains("containers:"), mails.get(0));
    assertTrue(mails.get(0).contains("one cause"), mails.get(0));
    // The first bag was reported before the kill, and is not reported again.
    assertFalse(mails.toString().contains("Bag 1"), mails.toString());
  }

  private static Set<String> coldBags(Grower grower) {
    return grower
        .api()
        .get("/api/notices")
        .valueStream()
        .flatMap(sent -> sent.get("notice").get("about").valueStream())
        .filter(about -> about.get("topic").textValue().equals("cold"))
        .map(about -> about.get("container").textValue())
        .collect(Collectors.toSet());
  }
}
