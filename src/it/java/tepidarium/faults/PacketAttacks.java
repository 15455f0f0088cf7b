package tepidarium.faults;

import static tepidarium.faults.MqttBytes.NO_PROPERTIES;
import static tepidarium.faults.MqttBytes.V3;
import static tepidarium.faults.MqttBytes.V5;
import static tepidarium.faults.MqttBytes.join;
import static tepidarium.faults.MqttBytes.packet;
import static tepidarium.faults.MqttBytes.publish5;
import static tepidarium.faults.MqttBytes.text;
import static tepidarium.faults.MqttBytes.utf8;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import tepidarium.faults.HostileClient.Answer;

/** Packets that break the protocol of MQTT, or use up what it grants. */
final class PacketAttacks {
  private static final byte[] GOOD = utf8("{\"temperature\":30}");

  private static final int SILENT_MS = 10_000;

  private static final String TOPIC = "tepidarium/attacker";

  private PacketAttacks() {}

  static List<Attack> all() {
    return List.of(
        Attack.quick("packets that break the protocol", PacketAttacks::broken),
        Attack.slow("first packets that are no CONNECT", PacketAttacks::noConnect),
        Attack.quick("properties of MQTT 5 out of range", PacketAttacks::properties),
        Attack.quick("62 half packets, then silence", PacketAttacks::halves),
        Attack.slow("300 retained messages of 1 KB", PacketAttacks::retained),
        Attack.slow("10,000 messages of quality 2 without PUBREL", PacketAttacks::quality2),
        Attack.slow("500 connections of random bytes", PacketAttacks::random),
        Attack.quick("one packet of 33 MB", PacketAttacks::largest),
        Attack.quick("20 packets of 7 MB that do not end", PacketAttacks::endless));
  }

  /** Sends packets as a connected client; the broker must answer or close the connection. */
  private static void closes(Target target, Tries tries, int version, byte[] packet, String name)
      throws IOException {
    try (HostileClient client = HostileClient.connected(target, version)) {
      Answer answer = client.ping(packet);
      tries.check(answer != Answer.SILENCE, "silence after " + name);
    }
  }

  private static void broken(Target target, Tries tries) throws IOException {
    closes(target, tries, V3, MqttBytes.connect(V3, "again"), "a second CONNECT");
    closes(target, tries, V3, packet(0x00, GOOD), "type 0");
    closes(target, tries, V3, packet(0xF0, GOOD), "type 15 in version 3");
    closes(target, tries, V3, packet(0x36, join(text(TOPIC), GOOD)), "quality 3");
    closes(target, tries, V3, MqttBytes.publish(0, TOPIC, GOOD), "packet id 0");
    closes(target, tries, V3, packet(0x82, new byte[] {0, 1}), "SUBSCRIBE of nothing");
    closes(target, tries, V3, packet(0x80, text(TOPIC)), "SUBSCRIBE with wrong flags");
    closes(target, tries, V3, packet(0xA2, new byte[] {0, 1}), "UNSUBSCRIBE of nothing");
    closes(target, tries, V3, packet(0x40, new byte[] {0, 9}), "PUBACK of nothing");
    closes(target, tries, V3, packet(0x62, new byte[] {0, 9}), "PUBREL of nothing");
    closes(target, tries, V3, packet(0x20, new byte[] {0, 0}), "CONNACK from a client");
    byte[] fiveBytes = {0x32, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, (byte) 0xFF, 0x7F};
    closes(target, tries, V3, fiveBytes, "a length of five bytes");
    closes(target, tries, V5, packet(0xF0, new byte[] {0x18, 0}), "AUTH without a method");
  }

  private static void noConnect(Target target, Tries tries) throws IOException {
    byte[] id = text("first");
    List<HostileClient> open = new ArrayList<>();
    for (byte[] first :
        List.of(
            MqttBytes.publish(1, TOPIC, GOOD),
            MqttBytes.PING,
            utf8("GET / HTTP/1.1\r\nHost: localhost\r\n\r\n"),
            new byte[] {0x16, 3, 1, 0, 5, 1, 0, 0, 1, 0}, // the start of TLS
            packet(0x10, join(text("MQXX"), new byte[] {4, 2, 0, 0}, id)),
            packet(0x10, join(text("MQTT"), new byte[] {9, 2, 0, 0}, id)),
            packet(0x10, join(text("MQTT"), new byte[] {4, 3, 0, 0}, id)),
            packet(0x10, join(text("MQTT"), new byte[] {4, 0x42, 0, 0}, id)),
            packet(0x10, join(text("MQTT"), new byte[] {4, 0x1E, 0, 0}, id)),
            MqttBytes.connect(V3, 0, NO_PROPERTIES, text("")),
            MqttBytes.connect(V3, MqttBytes.CLEAN, NO_PROPERTIES, text("")),
            MqttBytes.connect(V3, "x".repeat(65_535)),
            MqttBytes.connect(V3, "a\0b"),
            MqttBytes.connect(V3, "$sys.mqtt"),
            MqttBytes.connect(V5, "#"))) {
      HostileClient client = new HostileClient(target.mqttPort());
      open.add(client);
      client.send(first);
    }
    try {
      for (HostileClient client : open) {
        // What is no CONNECT may be taken for the start of something longer.
        if (client.isAnsweredWithin(SILENT_MS)) {
          tries.refused();
        } else {
          tries.held();
        }
      }
    } finally {
      close(open);
    }
  }

  private static void properties(Target target, Tries tries) throws IOException {
    byte[] alias0 = {3, 0x23, 0, 0};
    byte[] aliasLast = {3, 0x23, (byte) 0xFF, (byte) 0xFF};
    byte[] length256 = {(byte) 0xFF, (byte) 0xFF, (byte) 0xFF, 0x7F};
    byte[] twice = {4, 1, 1, 1, 1};
    byte[] unknown = {2, 0x7E, 0};
    byte[] many = join(new byte[0]);
    for (int i = 0; i < 2_000; i++) {
      many = join(many, new byte[] {0x26}, text("k"), text("v"));
    }
    many = join(MqttBytes.length(many.length), many);
    closes(target, tries, V5, publish5(1, TOPIC, alias0, GOOD), "topic alias 0");
    closes(target, tries, V5, publish5(1, TOPIC, aliasLast, GOOD), "topic alias 65,535");
    closes(target, tries, V5, publish5(1, "", new byte[] {3, 0x23, 0, 5}, GOOD), "unknown alias");
    closes(target, tries, V5, publish5(1, "", NO_PROPERTIES, GOOD), "no topic");
    closes(target, tries, V5, publish5(1, TOPIC, length256, GOOD), "properties of 256 MB");
    closes(target, tries, V5, publish5(1, TOPIC, twice, GOOD), "a property given twice");
    closes(target, tries, V5, publish5(1, TOPIC, unknown, GOOD), "an unknown property");
    closes(target, tries, V5, publish5(1, TOPIC, many, GOOD), "2,000 user properties");
    byte[] receive0 = {3, 0x21, 0, 0};
    try (HostileClient client = new HostileClient(target.mqttPort())) {
      Answer answer = client.ask(MqttBytes.connect(V5, MqttBytes.CLEAN, receive0, text("r0")));
      tries.check(answer != Answer.SILENCE, "silence after a receive maximum of 0");
    }
  }

  private static void halves(Target target, Tries tries) throws IOException {
    List<HostileClient> open = new ArrayList<>();
    try {
      for (int i = 0; i < 60; i++) {
        HostileClient client = HostileClient.connected(target, V3);
        open.add(client);
        byte[] whole = MqttBytes.publish(1, TOPIC, new byte[100_000]);
        client.send(Arrays.copyOf(whole, 50 + i * 1_000));
      }
      // A topic longer than its packet: the decoder takes what follows for the rest of it.
      for (byte[] longer : List.of(new byte[] {(byte) 0xFF, (byte) 0xFF}, new byte[0])) {
        HostileClient client = HostileClient.connected(target, V3);
        open.add(client);
        client.send(packet(0x32, longer));
      }
      // While they are open, a good sensor goes on.
      tries.check(target.secondsUntilStored() < Target.goalSeconds(), "good readings waited");
    } finally {
      close(open);
    }
  }

  private static void retained(Target target, Tries tries) throws IOException {
    try (HostileClient client = HostileClient.connected(target, V3)) {
      byte[] payload = utf8("{\"temperature\":30,\"x\":\"" + "y".repeat(1_000) + "\"}");
      for (int i = 1; i <= 300; i++) {
        Answer answer = client.ask(MqttBytes.publish(0x33, i, utf8(TOPIC), payload));
        if (answer == Answer.ACKNOWLEDGED) {
          tries.acknowledged();
        } else {
          tries.check(answer == Answer.REFUSED, "no answer to a retained message");
        }
      }
    }
  }

  private static void quality2(Target target, Tries tries) throws IOException {
    try (HostileClient client = HostileClient.connected(target, V3)) {
      for (int i = 1; i <= 10_000; i++) {
        Answer answer = client.ask(MqttBytes.publish(0x34, i, utf8(TOPIC), GOOD));
        if (answer == Answer.ACKNOWLEDGED) {
          tries.acknowledged();
        } else {
          tries.check(answer == Answer.REFUSED, "no answer to quality of service 2");
          return;
        }
      }
    }
  }

  private static void random(Target target, Tries tries) throws IOException {
    Random random = new Random(7);
    for (int i = 0; i < 500; i++) {
      byte[] bytes = new byte[1 + random.nextInt(300)];
      random.nextBytes(bytes);
      try (HostileClient client =
          i % 2 == 0 ? new HostileClient(target.mqttPort()) : HostileClient.connected(target, V3)) {
        client.send(bytes);
        tries.refused();
      }
    }
  }

  private static void largest(Target target, Tries tries) throws IOException {
    try (HostileClient client = HostileClient.connected(target, V3)) {
      Answer answer = client.ask(MqttBytes.publish(1, TOPIC, new byte[33 << 20]));
      tries.check(answer == Answer.REFUSED, "33 MB were answered with " + answer);
    }
  }

  private static void close(List<HostileClient> clients) throws IOException {
    for (HostileClient client : clients) {
      client.close();
    }
  }

  /** Others must get their acknowledgements while these connections are open. */
  private static void endless(Target target, Tries tries) throws IOException {
    byte[] whole = MqttBytes.publish(1, TOPIC, new byte[7 << 20]);
    byte[] part = Arrays.copyOf(whole, whole.length - 1);
    List<HostileClient> open = new ArrayList<>();
    try {
      for (int i = 0; i < 20; i++) {
        HostileClient client = HostileClient.connected(target, V3);
        open.add(client);
        client.send(part);
      }
      try (HostileClient good = HostileClient.connected(target, V3)) {
        Answer answer = good.ask(MqttBytes.publish(1, TOPIC, GOOD));
        if (answer == Answer.ACKNOWLEDGED) {
          tries.acknowledged();
        } else {
          tries.unhandled("a good message was answered with " + answer);
        }
      }
    } finally {
      close(open);
    }
  }
}
