package tepidarium.it;

import java.util.ArrayList;
import java.util.List;

/** A lamp or a display that we did not write: mosquitto_sub. */
public final class Subscriber {
  private static final byte[] NOTHING = {};

  private final List<String> options;

  private Subscriber(List<String> options) {
    this.options = List.copyOf(options);
  }

  public static Subscriber to(int port) {
    return new Subscriber(List.of("-h", "127.0.0.1", "-p", String.valueOf(port)));
  }

  public Subscriber as(String user, String password) {
    return with("-u", user, "-P", password);
  }

  /** The message that the broker keeps for a topic; empty where it gives none within a second. */
  public String retained(String topic) {
    return run(with("-t", topic, "-C", "1", "-W", "1", "--retained-only", "-q", "1"))
        .output()
        .strip();
  }

  /** Subscribes and leaves: the words that mosquitto_sub says, with MQTT 5. */
  public String attempt(String filter) {
    Command.Ended ended = run(with("-V", "mqttv5", "-t", filter, "-W", "2", "-E"));
    return ended.status() + ": " + ended.output();
  }

  /** Subscribes for good under a name and leaves: the broker keeps messages for it from then on. */
  public void leaveASession(String name, String filter) {
    run(with("-i", name, "-c", "-q", "1", "-t", filter, "-E"));
  }

  private Subscriber with(String... more) {
    List<String> all = new ArrayList<>(options);
    all.addAll(List.of(more));
    return new Subscriber(all);
  }

  private static Command.Ended run(Subscriber subscriber) {
    return Command.run(
        Command.of("/usr/bin/mosquitto_sub", "mosquitto-clients", subscriber.options), NOTHING);
  }
}
