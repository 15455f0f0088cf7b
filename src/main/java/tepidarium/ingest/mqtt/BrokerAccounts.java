package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.Principal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import javax.security.auth.Subject;
import org.apache.activemq.artemis.core.security.CheckType;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager5;
import org.apache.activemq.artemis.spi.core.security.jaas.RolePrincipal;
import org.apache.activemq.artemis.spi.core.security.jaas.UserPrincipal;
import org.jspecify.annotations.Nullable;

/**
 * Who may do what on the embedded broker. The service itself may do everything. A sensor, known by
 * name and password or, where no accounts are set, by anything, may publish and subscribe below the
 * given topics, and nowhere else: not even make an address.
 */
public final class BrokerAccounts implements ActiveMQSecurityManager5 {
  private static final RolePrincipal SERVICE = new RolePrincipal("service");
  private static final RolePrincipal SENSOR = new RolePrincipal("sensor");

  private final String serviceUser;
  private final String servicePassword;
  private final Map<String, String> accounts;
  private final List<String> topics;
  private final Consumer<String> refused;

  /**
   * The accounts of one start.
   *
   * @param servicePassword made anew for each start
   * @param accounts names and passwords; empty to let everybody in
   * @param topics the first levels below which sensors may publish, without a trailing slash; an
   *     empty one allows all
   * @param refused told the topic of every message that was refused, on a broker thread
   */
  public BrokerAccounts(
      String serviceUser,
      String servicePassword,
      Map<String, String> accounts,
      List<String> topics,
      Consumer<String> refused) {
    this.serviceUser = serviceUser;
    this.servicePassword = servicePassword;
    this.accounts = Map.copyOf(accounts);
    this.topics = List.copyOf(topics);
    this.refused = refused;
  }

  @Override
  public @Nullable Subject authenticate(
      @Nullable String user,
      @Nullable String password,
      RemotingConnection connection,
      @Nullable String securityDomain) {
    if (serviceUser.equals(user)) {
      return same(servicePassword, password) ? subject(serviceUser, true) : null;
    }
    if (accounts.isEmpty()) {
      return subject(user == null ? "anybody" : user, false);
    }
    String expected = user == null ? null : accounts.get(user);
    return user != null && expected != null && same(expected, password)
        ? subject(user, false)
        : null;
  }

  private static boolean same(String expected, @Nullable String given) {
    return given != null
        && MessageDigest.isEqual(
            expected.getBytes(StandardCharsets.UTF_8), given.getBytes(StandardCharsets.UTF_8));
  }

  private static Subject subject(String name, boolean service) {
    Set<Principal> principals = Set.of(new UserPrincipal(name), service ? SERVICE : SENSOR);
    return new Subject(true, principals, Set.of(), Set.of());
  }

  @Override
  public boolean authorize(
      @Nullable Subject subject, Set<Role> roles, CheckType check, String address) {
    if (subject == null) {
      return false;
    }
    if (subject.getPrincipals().contains(SERVICE)) {
      return true;
    }
    if (check != CheckType.MANAGE && topics.stream().anyMatch(topic -> below(topic, address))) {
      return true;
    }
    // The broker makes an address for a message to a new topic, and asks for that first.
    if (check == CheckType.CREATE_ADDRESS || check == CheckType.SEND) {
      refused.accept(address);
    }
    return false;
  }

  /** The broker names an address "topic" or, for a subscription's queue, "topic::queue". */
  private static boolean below(String topic, String address) {
    return topic.isEmpty() || address.equals(topic) || address.startsWith(topic + '/');
  }

  @Override
  public boolean validateUser(String user, String password) {
    return false;
  }

  @Override
  public boolean validateUserAndRole(
      String user, String password, Set<Role> roles, CheckType checkType) {
    return false;
  }
}
