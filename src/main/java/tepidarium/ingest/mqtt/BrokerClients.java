package tepidarium.ingest.mqtt;

import java.net.InetAddress;
import java.util.List;
import java.util.function.Function;
import java.util.function.IntSupplier;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * The accounts of the embedded broker, and which clients it accepts without one.
 *
 * @param account finds an account by its name; null if there is none
 * @param count number of accounts
 * @param anonymous whether a client from this address needs no account
 * @param unknownNames whether a client that needs no account may give a user name without an
 *     account
 */
public record BrokerClients(
    Function<String, @Nullable Account> account,
    IntSupplier count,
    Predicate<InetAddress> anonymous,
    boolean unknownNames) {
  /** No accounts; accepts every client. */
  public static final BrokerClients ANYBODY =
      new BrokerClients(name -> null, () -> 0, address -> true, true);

  /**
   * An account of a sensor or a person.
   *
   * @param password whether a password is the right one
   * @param ownSensor whether it may publish as the sensor of its own name, and read below its topic
   * @param publish topic filters to which it may publish
   * @param read topic filters that it may read
   */
  public record Account(
      Predicate<String> password, boolean ownSensor, List<String> publish, List<String> read) {
    public Account {
      publish = List.copyOf(publish);
      read = List.copyOf(read);
    }
  }
}
