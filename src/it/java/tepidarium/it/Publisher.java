package tepidarium.it;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A sensor that we did not write: mosquitto_pub, which connects, publishes and leaves. Immutable;
 * quality of service 1 and MQTT 3.1.1 unless said otherwise.
 */
public final class Publisher {
  private final List<String> options;
  private final String version;
  private final int qos;

  private Publisher(List<String> options, String version, int qos) {
    this.options = List.copyOf(options);
    this.version = version;
    this.qos = qos;
  }

  public static Publisher to(int port) {
    return new Publisher(List.of("-h", "127.0.0.1", "-p", String.valueOf(port)), "mqttv311", 1);
  }

  /** With MQTT 5 in place of 3.1.1. */
  public Publisher version5() {
    return new Publisher(options, "mqttv5", qos);
  }

  public Publisher qos(int level) {
    return new Publisher(options, version, level);
  }

  /** The broker is asked to keep the message for those who subscribe later. */
  public Publisher retained() {
    return with("-r");
  }

  public Publisher as(String user, String password) {
    return with("-u", user, "-P", password);
  }

  /** Connects over TLS; checks the broker by a certificate. */
  public Publisher tls(Path ca) {
    return with("--cafile", ca.toString());
  }

  /** Connects over TLS with a certificate of its own. */
  public Publisher tls(Path ca, Path certificate, Path key) {
    return tls(ca).with("--cert", certificate.toString(), "--key", key.toString());
  }

  private Publisher with(String... more) {
    List<String> all = new ArrayList<>(options);
    all.addAll(List.of(more));
    return new Publisher(all, version, qos);
  }

  /** Sends one message; fails where the broker does not take it. */
  public void send(String topic, String payload) {
    send(topic, payload.getBytes(StandardCharsets.UTF_8));
  }

  /** Sends one message of any bytes; fails where the broker does not take it. */
  public void send(String topic, byte[] payload) {
    good(run(topic, "-s", payload));
  }

  /** Sends each line as a message of its own, over one connection. */
  public void lines(String topic, List<String> lines) {
    byte[] input = (String.join("\n", lines) + "\n").getBytes(StandardCharsets.UTF_8);
    good(run(topic, "-l", input));
  }

  /** Sends one message, whatever the broker thinks of it: the words that mosquitto_pub says. */
  public String attempt(String topic, String payload) {
    Command.Ended ended = run(topic, "-s", payload.getBytes(StandardCharsets.UTF_8));
    return ended.status() + ": " + ended.output();
  }

  private Command.Ended run(String topic, String source, byte[] input) {
    List<String> arguments = new ArrayList<>(options);
    arguments.addAll(List.of("-V", version, "-q", String.valueOf(qos), "-t", topic, source));
    return Command.run(Command.of("/usr/bin/mosquitto_pub", "mosquitto-clients", arguments), input);
  }

  private static void good(Command.Ended ended) {
    if (ended.status() != 0) {
      throw new AssertionError(
          "mosquitto_pub ended with " + ended.status() + ": " + ended.output());
    }
  }
}
