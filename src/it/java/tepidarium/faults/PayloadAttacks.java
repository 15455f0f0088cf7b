package tepidarium.faults;

import static tepidarium.faults.MqttBytes.utf8;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import tepidarium.faults.HostileClient.Answer;

/** Payloads that cost more than they are worth, or whose numbers and times mean nothing. */
final class PayloadAttacks {
  private static final String TOPIC = "tepidarium/attacker";

  /** Readings in one message: what a sensor kept that was away for a month. */
  private static final int BACKLOG = 44_000;

  private PayloadAttacks() {}

  static List<Attack> all() {
    return List.of(
        Attack.quick("numbers that are none", PayloadAttacks::numbers),
        Attack.quick("instants and ages without sense", PayloadAttacks::times),
        Attack.slow("payloads that are no JSON text", PayloadAttacks::text),
        Attack.quick("JSON nested 100,000 deep", PayloadAttacks::nested),
        Attack.quick("an array of 4 MB of {}", PayloadAttacks::emptyObjects),
        Attack.slow("4 arrays of 4 MB, of other kinds", PayloadAttacks::arrays),
        Attack.slow("a backlog of 44,000 readings in one message", PayloadAttacks::backlog));
  }

  private static void publish(Target target, Tries tries, String topic, byte[]... payloads)
      throws IOException {
    HostileClient client = HostileClient.connected(target, MqttBytes.V3);
    try {
      for (byte[] payload : payloads) {
        Answer answer = client.ask(MqttBytes.publish(1, topic, payload));
        if (answer == Answer.ACKNOWLEDGED) {
          tries.acknowledged();
        } else {
          tries.check(answer == Answer.REFUSED, answer + " to " + start(payload));
          client.close();
          client = HostileClient.connected(target, MqttBytes.V3);
        }
      }
    } finally {
      client.close();
    }
  }

  private static String start(byte[] payload) {
    int length = Math.min(30, payload.length);
    return new String(payload, 0, length, StandardCharsets.ISO_8859_1);
  }

  private static void numbers(Target target, Tries tries) throws IOException {
    List<byte[]> objects = new ArrayList<>();
    List<byte[]> plain = new ArrayList<>();
    for (String number :
        List.of(
            "NaN",
            "Infinity",
            "-Infinity",
            "1e999",
            "-1e999",
            "1e-999999999",
            "1e999999999",
            "0x1F",
            "0777",
            "+3",
            ".5",
            "5.",
            "1_000",
            "1,5",
            "\u0661\u0662",
            "true",
            "null",
            "\"\"",
            "\"warm\"",
            "[]",
            "{}",
            "9".repeat(100_000),
            "0." + "9".repeat(100_000),
            "1e" + "9".repeat(10_000))) {
      objects.add(utf8("{\"temperature\":" + number + "}"));
      plain.add(utf8(number));
    }
    publish(target, tries, TOPIC, objects.toArray(byte[][]::new));
    publish(target, tries, TOPIC + "/temperature", plain.toArray(byte[][]::new));
  }

  private static void times(Target target, Tries tries) throws IOException {
    List<byte[]> payloads = new ArrayList<>();
    for (String at :
        List.of(
            "0",
            "-1",
            "1e30",
            "-1e30",
            "1e999",
            "9223372036854775807",
            "9".repeat(50_000),
            "253402300799",
            "\"9999-12-31T23:59:59Z\"",
            "\"1970-01-01T00:00:00Z\"",
            "\"+1000000000-12-31T23:59:59.999999999Z\"",
            "\"2026-02-30T00:00:00Z\"",
            "\"2026-01-01\"",
            "\"yesterday\"",
            "\"\"",
            "null",
            "[]",
            "{}",
            "true")) {
      payloads.add(utf8("{\"temperature\":30,\"at\":" + at + "}"));
      payloads.add(utf8("{\"temperature\":30,\"age\":" + at + "}"));
    }
    payloads.add(utf8("{\"temperature\":30,\"age\":-3600}"));
    payloads.add(utf8("{\"temperature\":30,\"at\":1,\"age\":1}"));
    publish(target, tries, TOPIC, payloads.toArray(byte[][]::new));
  }

  private static void text(Target target, Tries tries) throws IOException {
    byte[] json = utf8("{\"temperature\":30}");
    byte[] mark = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};
    publish(
        target,
        tries,
        TOPIC,
        new byte[0],
        new byte[1_000],
        MqttBytes.join(mark, json),
        "{\"temperature\":30}".getBytes(StandardCharsets.UTF_16),
        MqttBytes.join(json, json),
        MqttBytes.join(json, new byte[] {0}),
        new byte[] {'{', '"', (byte) 0xFF, (byte) 0xFE, '"', ':', '1', '}'},
        new byte[] {'"', (byte) 0xC3},
        utf8("{\"temperature\":30,\"temperature\":31}"),
        utf8("{\"\":30}"),
        utf8("{\"temp\\u0000erature\":30}"),
        utf8("{\"temperature\":30"),
        utf8("[{\"temperature\":30},"),
        utf8("{'temperature':30}"),
        utf8("// {\"temperature\":30}"),
        utf8("{\"__proto__\":{\"temperature\":30}}"),
        utf8("<temperature>30</temperature>"),
        utf8("\"" + "x".repeat(1_000_000) + "\""),
        new byte[] {0x1F, (byte) 0x8B, 8, 0, 0, 0, 0, 0});
  }

  private static void nested(Target target, Tries tries) throws IOException {
    int deep = 100_000;
    publish(
        target,
        tries,
        TOPIC,
        utf8("[".repeat(deep)),
        utf8("[".repeat(deep) + "]".repeat(deep)),
        utf8("{\"a\":".repeat(deep) + "1" + "}".repeat(deep)),
        utf8("[{\"a\":".repeat(deep)),
        utf8("{\"temperature\":" + "[".repeat(deep) + "]".repeat(deep) + "}"));
  }

  private static byte[] array(String element, int bytes) {
    int count = bytes / (element.length() + 1);
    return utf8("[" + (element + ",").repeat(count) + element + "]");
  }

  private static void emptyObjects(Target target, Tries tries) throws IOException {
    publish(target, tries, TOPIC, array("{}", 4_000_000));
  }

  private static void arrays(Target target, Tries tries) throws IOException {
    publish(
        target,
        tries,
        TOPIC,
        array("[]", 4_000_000),
        array("1", 4_000_000),
        array("{\"temperature\":30,\"at\":1}", 4_000_000),
        array("{\"temperature\":\"" + "x".repeat(1_000) + "\"}", 4_000_000));
  }

  private static void backlog(Target target, Tries tries) throws IOException {
    long first = System.currentTimeMillis() / 1_000 - BACKLOG;
    StringBuilder all = new StringBuilder("[");
    for (int i = 0; i < BACKLOG; i++) {
      all.append(i == 0 ? "" : ",").append("{\"temperature\":30,\"at\":").append(first + i);
      all.append('}');
    }
    publish(target, tries, TOPIC, utf8(all.append(']').toString()));
    // All of them are stored before the next readings are.
    tries.check(target.secondsUntilStored() < Target.goalSeconds(), "good readings waited");
    long rows = target.rowsOf("attacker", first * 1_000, (first + BACKLOG) * 1_000);
    tries.check(rows >= BACKLOG, rows + " readings of the backlog are stored");
  }
}
