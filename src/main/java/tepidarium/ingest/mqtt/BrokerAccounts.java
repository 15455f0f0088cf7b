package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.Principal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.security.auth.Subject;
import org.apache.activemq.artemis.core.security.CheckType;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager5;
import org.jspecify.annotations.Nullable;

/**
 * Who may do what on the embedded broker. The service itself may do everything. A sensor, known by
 * name and password or, where no accounts are set, by anything, may publish and subscribe below the
 * given topics, and nowhere else: not even make an address.
 */
public final class BrokerAccounts implements ActiveMQSecurityManager5 {
  private record Who(String name, boolean service) implements Principal {
    @Override
    public String getName() {
      return name;
    }
  }

  private final String serviceUser;
  private final String servicePassword;
  private final Map<String, String> accounts;
  private final List<String> topics;

  /**
   * The accounts of one start.
   *
   * @param servicePassword made anew for each start
   * @param accounts names and passwords; empty to let everybody in
   * @param topics the first levels below which sensors may publish, without a trailing slash
   */
  public BrokerAccounts(
      String serviceUser,
      String servicePassword,
      Map<String, String> accounts,
      List<String> topics) {
    this.serviceUser = serviceUser;
    this.servicePassword = servicePassword;
    this.accounts = Map.copyOf(accounts);
    this.topics = List.copyOf(topics);
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
    return new Subject(true, Set.of(new Who(name, service)), Set.of(), Set.of());
  }

  @Override
  public boolean authorize(
      @Nullable Subject subject, Set<Role> roles, CheckType check, String address) {
    if (subject == null) {
      return false;
    }
    boolean service = subject.getPrincipals(Who.class).stream().anyMatch(Who::service);
    if (service) {
      return true;
    }
    return check != CheckType.MANAGE && topics.stream().anyMatch(topic -> below(topic, address));
  }

  /** The broker names an address "topic" or, for a subscription's queue, "topic::queue". */
  private static boolean below(String topic, String address) {
    return address.equals(topic) || address.startsWith(topic + '/');
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
