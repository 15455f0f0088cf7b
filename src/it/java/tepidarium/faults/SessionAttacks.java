package tepidarium.faults;

import static tepidarium.faults.MqttBytes.CLEAN;
import static tepidarium.faults.MqttBytes.NO_PROPERTIES;
import static tepidarium.faults.MqttBytes.V3;
import static tepidarium.faults.MqttBytes.V5;
import static tepidarium.faults.MqttBytes.text;
import static tepidarium.faults.MqttBytes.utf8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tepidarium.faults.HostileClient.Answer;

/** Sessions that belong to somebody else, that nobody comes back to, or that cannot log in. */
final class SessionAttacks {
  private static final int USER_AND_PASSWORD = 0xC0;
  private static final byte[] GOOD = utf8("{\"temperature\":30}");

  /** The session expiry interval of MQTT 5 that means never. */
  private static final byte[] NEVER = {5, 0x11, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF};

  private static final long MAX_GROWTH_BYTES = 64L << 20;

  private SessionAttacks() {}

  static List<Attack> all() {
    return List.of(
        Attack.quick("20 connections under the service's client id", SessionAttacks::takeOver),
        Attack.quick("50 wrong passwords of the service's account", wrongPasswords(50)),
        Attack.slow("1,000 wrong passwords of the service's account", wrongPasswords(1_000)),
        Attack.slow("2,000 connections that come and go", SessionAttacks::comeAndGo),
        Attack.slow("200 sessions left behind, and 4 KB messages", SessionAttacks::leftBehind),
        Attack.slow("a subscriber that does not read", SessionAttacks::doesNotRead),
        Attack.slow("kill -9 during a flood", SessionAttacks::kill));
  }

  private static void takeOver(Target target, Tries tries) throws IOException {
    String id = Files.readString(target.data().resolve("client-id")).strip();
    for (int i = 0; i < 20; i++) {
      try (HostileClient client = new HostileClient(target.mqttPort())) {
        client.send(MqttBytes.connect(i % 2 == 0 ? V3 : V5, id));
        tries.check(client.answer() == Answer.REFUSED, "the service's client id was given away");
      }
    }
  }

  private static Attack.Action wrongPasswords(int wrong) {
    return (target, tries) -> {
      for (int i = 0; i < wrong; i++) {
        try (HostileClient client = new HostileClient(target.mqttPort())) {
          client.send(
              MqttBytes.connect(
                  V3,
                  CLEAN | USER_AND_PASSWORD,
                  NO_PROPERTIES,
                  text("guess-" + i),
                  text("tepidarium-service"),
                  text("guess-" + i)));
          tries.check(client.answer() == Answer.REFUSED, "a wrong password was let in");
        }
      }
    };
  }

  private static void comeAndGo(Target target, Tries tries) throws IOException {
    for (int i = 0; i < 2_000; i++) {
      try (HostileClient client = new HostileClient(target.mqttPort())) {
        client.send(MqttBytes.connect(V5, CLEAN, NEVER, text("gone-" + i)));
        tries.check(client.answer() != Answer.SILENCE, "no answer to CONNECT");
      }
    }
  }

  private static void leftBehind(Target target, Tries tries) throws IOException {
    for (int i = 0; i < 200; i++) {
      try (HostileClient client = new HostileClient(target.mqttPort())) {
        client.send(MqttBytes.connect(V5, CLEAN, NEVER, text("left-" + i)));
        byte[] filter = {0, 1, 0};
        byte[] body = MqttBytes.join(filter, text("tepidarium/#"), new byte[] {1});
        boolean in = client.answer() == Answer.ACKNOWLEDGED;
        Answer answer = in ? client.ask(MqttBytes.packet(0x82, body)) : Answer.REFUSED;
        tries.check(answer != Answer.SILENCE, "no answer to SUBSCRIBE");
      }
    }
    long before = size(target.data());
    byte[] payload = utf8("{\"temperature\":30,\"x\":\"" + "y".repeat(4_000) + "\"}");
    try (HostileClient client = HostileClient.connected(target, V3)) {
      for (int i = 1; i <= 500; i++) {
        Answer answer = client.ask(MqttBytes.publish(i, "tepidarium/attacker", payload));
        if (answer == Answer.ACKNOWLEDGED) {
          tries.acknowledged();
        } else {
          tries.unhandled(answer + " to a message of 4 KB");
          break;
        }
      }
    }
    long grown = size(target.data()) - before;
    tries.check(grown < MAX_GROWTH_BYTES, "the data folder grew by " + (grown >> 20) + " MB");
  }

  private static long size(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.mapToLong(SessionAttacks::bytes).sum();
    }
  }

  private static long bytes(Path file) {
    try {
      return Files.isRegularFile(file) ? Files.size(file) : 0;
    } catch (java.nio.file.NoSuchFileException e) {
      return 0;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void doesNotRead(Target target, Tries tries) throws IOException {
    List<HostileClient> sleeping = new ArrayList<>();
    try (HostileClient client = HostileClient.connected(target, V3)) {
      for (int i = 0; i < 10; i++) {
        HostileClient one = HostileClient.connected(target, V3);
        one.ask(MqttBytes.subscribe(1, "tepidarium/#"));
        sleeping.add(one);
      }
      byte[] payload = utf8("{\"temperature\":30,\"x\":\"" + "y".repeat(4_000) + "\"}");
      for (int i = 1; i <= 5_000; i++) {
        Answer answer = client.ask(MqttBytes.publish(i, "tepidarium/attacker", payload));
        if (answer != Answer.ACKNOWLEDGED) {
          tries.unhandled(answer + " to a message of 4 KB");
          break;
        }
        tries.acknowledged();
      }
    } finally {
      for (HostileClient one : sleeping) {
        one.close();
      }
    }
  }

  private static void kill(Target target, Tries tries) throws IOException {
    try (HostileClient client = HostileClient.connected(target, V3)) {
      for (int i = 1; i <= 2_000; i++) {
        client.send(MqttBytes.publish(i, "tepidarium/attacker", GOOD));
      }
      tries.check(client.answer() == Answer.ACKNOWLEDGED, "no acknowledgement before the kill");
      target.killAndStart();
    }
  }
}
