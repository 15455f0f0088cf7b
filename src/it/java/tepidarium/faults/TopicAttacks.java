package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static tepidarium.faults.MqttBytes.V3;
import static tepidarium.faults.MqttBytes.V5;
import static tepidarium.faults.MqttBytes.utf8;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;

/** Topics that no sensor should publish to, and names without number. */
final class TopicAttacks {
  private static final byte[] GOOD = utf8("{\"temperature\":30}");
  private static final String ROOT = "tepidarium/";

  /** A will goes out some time after its socket has closed; this one is permitted. */
  private static final String MARK = "[29.125]";

  /** Far beyond the 2,000 names that the service takes by default. */
  private static final int NAMES = 7_500;

  private TopicAttacks() {}

  static List<Attack> all() {
    return List.of(
        Attack.quick("topics that are no valid text", TopicAttacks::invalidText),
        Attack.slow("topics with wildcards, empty levels and separators", TopicAttacks::odd),
        Attack.slow("topics of the broker and of shared subscriptions", TopicAttacks::foreign),
        Attack.quick("publish to status, alert and notice", TopicAttacks::own),
        Attack.quick("will messages to status and alert", TopicAttacks::wills),
        Attack.slow("openings of containers that do not exist", TopicAttacks::openings),
        Attack.quick("topics of 64 KB and of 1,000 levels", TopicAttacks::large));
  }

  /** After this one, the service takes no new names for an hour. */
  static Attack manyNames() {
    return Attack.slow("7,500 names of sensors", TopicAttacks::names);
  }

  /** Publishes one message over a connection of its own; refused or counted, nothing else. */
  private static void publish(Target target, Tries tries, byte[] topic, boolean counted)
      throws IOException {
    publish(target, tries, topic, counted, 0x32);
  }

  private static void publish(Target target, Tries tries, byte[] topic, boolean counted, int first)
      throws IOException {
    try (HostileClient client = HostileClient.connected(target, V3)) {
      note(tries, client.ask(MqttBytes.publish(first, 1, topic, GOOD)), counted, words(V3, topic));
    }
    try (HostileClient client = HostileClient.connected(target, V5)) {
      byte[] body =
          MqttBytes.join(
              MqttBytes.counted(topic), MqttBytes.number(1), MqttBytes.NO_PROPERTIES, GOOD);
      note(tries, client.ask(MqttBytes.packet(first, body)), counted, words(V5, topic));
    }
  }

  private static String words(int version, byte[] topic) {
    String start = new String(topic, 0, Math.min(20, topic.length), StandardCharsets.US_ASCII);
    return "a topic of " + topic.length + " bytes in version " + version + ": " + start;
  }

  private static void note(
      Tries tries, HostileClient.Answer answer, boolean counted, String words) {
    switch (answer) {
      case REFUSED -> tries.refused();
      case ACKNOWLEDGED -> {
        if (counted) {
          tries.acknowledged();
        } else {
          tries.refused();
        }
      }
      default -> tries.unhandled("no answer to " + words);
    }
  }

  private static void invalidText(Target target, Tries tries) throws IOException {
    byte[][] ends = {
      {0},
      {'a', 0, 'b'},
      {(byte) 0xEF, (byte) 0xBF, (byte) 0xBF}, // U+FFFF
      {(byte) 0xED, (byte) 0xA0, (byte) 0x80}, // half of a surrogate pair
      {(byte) 0xED, (byte) 0xA0, (byte) 0x80, (byte) 0xED, (byte) 0xB0, (byte) 0x80},
      {(byte) 0xC0, (byte) 0x80}, // U+0000 in two bytes
      {(byte) 0xFF, (byte) 0xFE},
      {(byte) 0xC3}, // cut off
      {1},
      {0x7F},
      {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF}, // byte order mark
      {(byte) 0xEF, (byte) 0xB7, (byte) 0x90}, // U+FDD0, no character
      {(byte) 0xF0, (byte) 0x9F, (byte) 0xBF, (byte) 0xBE}, // U+1FFFE, no character
    };
    for (byte[] end : ends) {
      publish(target, tries, MqttBytes.join(utf8(ROOT), end), true);
    }
  }

  private static void odd(Target target, Tries tries) throws IOException {
    for (String topic :
        List.of("#", "+", ROOT + "#", ROOT + "+", ROOT + "a/+/temperature", ROOT + "a#")) {
      publish(target, tries, utf8(topic), false);
    }
    for (String end :
        List.of("", "/", "//", "a//b", "a::b", "::", "a.b", "a b", "é", "a/b/c/d/e")) {
      publish(target, tries, utf8(ROOT + end), true);
    }
    publish(target, tries, utf8(""), false);
    publish(target, tries, utf8("/"), false);
  }

  private static void foreign(Target target, Tries tries) throws IOException {
    for (String topic :
        List.of(
            "$SYS/broker/uptime",
            "$SYS",
            "$share/g/" + ROOT + "a",
            "$sys.mqtt.sessions",
            "$sys.mqtt.queue.qos2.service",
            "activemq.management",
            "activemq.notifications",
            "$undelivered",
            "$expired")) {
      publish(target, tries, utf8(topic), false);
      publish(target, tries, utf8(topic), false, 0x33);
    }
    for (String filter :
        List.of("$SYS/#", "#", "$share/g/" + ROOT + "#", "$share//x", "a/#/b", "activemq.#", "")) {
      try (HostileClient client = HostileClient.connected(target, V3)) {
        HostileClient.Answer answer = client.ask(MqttBytes.subscribe(1, filter));
        tries.check(answer != HostileClient.Answer.SILENCE, "no answer to the filter " + filter);
      }
    }
  }

  /** What only the service may say: nobody who subscribes to it may hear it from another. */
  private static void own(Target target, Tries tries) throws IOException {
    try (HostileClient page = HostileClient.connected(target, V3)) {
      listen(page);
      for (String topic :
          List.of("status", "alert/bag/hot", "alert/bag/silent", "alert", "notice/system")) {
        publish(target, tries, utf8(ROOT + topic), false);
        publish(target, tries, utf8(ROOT + topic), false, 0x33);
      }
      leaveWill(target, tries, "attacker", 0, MARK);
      awaitMark(page);
      noneForged(page, tries, "temperature");
    }
  }

  /** Subscribes to what only the service says, and to what the attacker may say. */
  private static void listen(HostileClient page) {
    page.ask(MqttBytes.subscribe(1, ROOT + "status"));
    page.ask(MqttBytes.subscribe(2, ROOT + "alert/#"));
    page.ask(MqttBytes.subscribe(3, ROOT + "attacker"));
  }

  /** Until a permitted message has come, which was published after all others. */
  private static void awaitMark(HostileClient page) {
    await()
        .atMost(Duration.ofSeconds(10))
        .until(
            () -> {
              page.ping();
              return page.heard(utf8(MARK));
            });
  }

  private static void noneForged(HostileClient page, Tries tries, String words) {
    tries.check(!page.heard(utf8(words)), "a page heard what a sensor said in the service's name");
  }

  private static void wills(Target target, Tries tries) throws IOException {
    try (HostileClient page = HostileClient.connected(target, V3)) {
      listen(page);
      for (String topic : List.of("status", "alert/bag/hot")) {
        for (int retain : new int[] {0, 0x20}) {
          leaveWill(target, tries, topic, retain, "forged");
        }
      }
      leaveWill(target, tries, "attacker", 0, MARK);
      awaitMark(page);
      noneForged(page, tries, "forged");
    }
  }

  private static void leaveWill(
      Target target, Tries tries, String topic, int retain, String payload) throws IOException {
    try (HostileClient client = new HostileClient(target.mqttPort())) {
      client.send(
          MqttBytes.connect(
              V3,
              MqttBytes.CLEAN | MqttBytes.WILL_QOS_1 | retain,
              MqttBytes.NO_PROPERTIES,
              MqttBytes.text("will-" + topic + retain),
              MqttBytes.text(ROOT + topic),
              MqttBytes.text(payload)));
      tries.check(client.answer() != HostileClient.Answer.SILENCE, "no answer to a will");
    }
  }

  private static void openings(Target target, Tries tries) throws IOException {
    for (String end :
        List.of(
            "opening", "opening/", "opening/none", "opening/a/b", "opening/" + "x".repeat(999))) {
      publish(target, tries, utf8(ROOT + end), true);
    }
  }

  private static void large(Target target, Tries tries) throws IOException {
    publish(target, tries, utf8(ROOT + "x".repeat(65_535 - ROOT.length())), true);
    publish(target, tries, utf8(ROOT + "x/".repeat(1_000)), true);
    publish(target, tries, utf8(ROOT + "/".repeat(65_535 - ROOT.length())), true);
    publish(target, tries, utf8("x".repeat(65_535)), false);
  }

  private static void names(Target target, Tries tries) throws IOException {
    HostileClient client = HostileClient.connected(target, V3);
    try {
      for (int i = 0; i < NAMES; i++) {
        HostileClient.Answer answer = client.ask(MqttBytes.publish(1, ROOT + "counter-" + i, GOOD));
        note(tries, answer, true, "counter-" + i);
        if (answer == HostileClient.Answer.REFUSED) {
          client.close();
          client = HostileClient.connected(target, V3);
        }
      }
    } finally {
      client.close();
    }
    long known = target.grower().api().get("/api/sensors").size();
    tries.check(known <= 2_200, known + " sensors are known");
  }
}
