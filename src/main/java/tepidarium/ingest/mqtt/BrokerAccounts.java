package tepidarium.ingest.mqtt;

import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.Principal;
import java.util.List;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.function.Supplier;
import javax.security.auth.Subject;
import org.apache.activemq.artemis.core.security.CheckType;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager5;
import org.apache.activemq.artemis.spi.core.security.jaas.RolePrincipal;
import org.apache.activemq.artemis.spi.core.security.jaas.UserPrincipal;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.mqtt.BrokerClients.Account;

/**
 * Decides who may log in to the embedded broker, and which topics each client may publish to and
 * read. The service itself has all rights. A client without an account may publish and read below
 * the topics of the service, where such clients are accepted. A client with an account may use the
 * topics granted to it. With an account from the settings, it may also publish as the sensor of its
 * own name and read below its own topic. Only the service may publish its status, alerts and
 * notices.
 */
public final class BrokerAccounts implements ActiveMQSecurityManager5 {
  private static final RolePrincipal SERVICE = new RolePrincipal("service");
  private static final RolePrincipal ACCOUNT = new RolePrincipal("account");
  private static final RolePrincipal ANONYMOUS = new RolePrincipal("anonymous");

  /** Subtopics of the root that only the service publishes to. */
  private static final List<String> RESERVED = List.of("status", "alert", "notice");

  /**
   * The login of the service itself.
   *
   * @param clientId client id reserved for the service
   * @param password random, new at each start
   */
  public record ServiceLogin(String clientId, String user, String password) {
    @Override
    public String toString() {
      return user;
    }
  }

  /** Why a login is refused. */
  enum Refusal {
    WRONG_PASSWORD,
    /** The client gave no user name, and needs an account. */
    NO_ACCOUNT
  }

  /**
   * The topics of the service.
   *
   * @param root the root topic
   * @param mapped the first levels of the topics that mapping rules read, without a trailing slash.
   *     An empty string gives clients without an account access to all topics
   * @param sensorOf the sensor whose readings a topic carries; null for none
   * @param unread receives topic and payload of each message that no rule reads, on a broker thread
   */
  public record Topics(
      String root,
      Supplier<List<String>> mapped,
      Function<String, @Nullable String> sensorOf,
      BiConsumer<String, byte[]> unread) {}

  private final ServiceLogin service;
  private final BrokerClients clients;
  private final Topics topics;
  private final BiConsumer<String, String> refused;
  private volatile @Nullable BrokerQuota quota;

  /**
   * Creates the accounts.
   *
   * @param clients the accounts, and which clients need none
   * @param refused receives the topic and the reason of each refused message, on a broker thread
   */
  public BrokerAccounts(
      ServiceLogin service,
      BrokerClients clients,
      Topics topics,
      BiConsumer<String, String> refused) {
    this.service = service;
    this.clients = clients;
    this.topics = topics;
    this.refused = refused;
  }

  /** Sets the quota for new topics. */
  void setQuota(BrokerQuota limits) {
    quota = limits;
  }

  String serviceClientId() {
    return service.clientId();
  }

  boolean areConfigured() {
    return count() > 0;
  }

  int count() {
    return clients.count().getAsInt();
  }

  boolean hasAccount(String user) {
    return account(user) != null;
  }

  boolean isService(@Nullable String user) {
    return service.user().equals(user);
  }

  /**
   * Whether the client id is that of the service, or starts with it and a dot. The broker names the
   * queue of a subscription "client id.filter", so the queues of such a client could have the same
   * names as those of the service.
   */
  boolean isServiceClient(String clientId) {
    return clientId.equals(service.clientId()) || clientId.startsWith(service.clientId() + '.');
  }

  private @Nullable Account account(@Nullable String user) {
    return user == null ? null : clients.account().apply(user);
  }

  /**
   * Why a client may not log in; null if it may.
   *
   * @param from its network address; null if it is unknown
   */
  @Nullable Refusal whyNotLogin(
      @Nullable String user, @Nullable String password, @Nullable InetAddress from) {
    if (isService(user)) {
      return same(service.password(), password) ? null : Refusal.WRONG_PASSWORD;
    }
    Account account = account(user);
    if (account != null) {
      return password != null && account.password().test(password) ? null : Refusal.WRONG_PASSWORD;
    }
    if (user != null && !user.isEmpty() && !clients.unknownNames()) {
      return Refusal.WRONG_PASSWORD;
    }
    return from != null && clients.anonymous().test(from) ? null : Refusal.NO_ACCOUNT;
  }

  private static boolean same(String expected, @Nullable String given) {
    return given != null
        && MessageDigest.isEqual(
            expected.getBytes(StandardCharsets.UTF_8), given.getBytes(StandardCharsets.UTF_8));
  }

  /** Whether no rule reads a topic, which is not below the root topic either. */
  boolean isUnread(String topic) {
    return !topic.startsWith("$")
        && !isBelow(topics.root(), topic)
        && topics.sensorOf().apply(topic) == null;
  }

  /** Reports a message that no rule reads. */
  void reportUnread(String topic, byte[] payload) {
    topics.unread().accept(topic, payload);
  }

  /** Reports a refused message. */
  void reportRefused(String topic, String reason) {
    refused.accept(topic, reason);
  }

  /** Why this logged-in user may not publish to a topic; null if it may. */
  @Nullable String whyNotPublish(@Nullable String user, String topic) {
    if (isService(user)) {
      return null;
    }
    if (RESERVED.stream().anyMatch(reserved -> isBelow(topics.root() + '/' + reserved, topic))) {
      return '"' + topic + "\" is reserved for this service: publish to another topic";
    }
    Account account = account(user);
    if (user == null || account == null) {
      return isServiceTopic(topic)
          ? null
          : '"'
              + topic
              + "\" is not read by this service: publish to "
              + topics.root()
              + "/<sensor>, or add a mapping rule for this topic";
    }
    if (isGranted(account.publish(), topic)) {
      return null;
    }
    String start = "the account \"" + user + "\" may not publish to \"" + topic + "\": publish to ";
    if (!account.ownSensor()) {
      return start + String.join(", ", account.publish()) + ", or make an account for this topic";
    }
    boolean own = isOwnTopic(user, topic) || user.equals(topics.sensorOf().apply(topic));
    return own
        ? null
        : start + topics.root() + '/' + user + ", or grant it this topic in the settings (grants)";
  }

  /** Whether this logged-in user may subscribe to a topic filter. */
  boolean mayRead(@Nullable String user, String filter) {
    Account account = account(user);
    if (user == null || account == null) {
      return isServiceTopic(filter);
    }
    return (account.ownSensor() && isOwnTopic(user, filter)) || isGranted(account.read(), filter);
  }

  private boolean isOwnTopic(String user, String topic) {
    return isBelow(topics.root() + '/' + user, topic);
  }

  private static boolean isGranted(List<String> filters, String topic) {
    return !topic.startsWith("$")
        && filters.stream().anyMatch(filter -> TopicNames.covers(filter, topic));
  }

  private boolean isServiceTopic(String topic) {
    return !topic.startsWith("$")
        && (isBelow(topics.root(), topic)
            || topics.mapped().get().stream().anyMatch(mapped -> isBelow(mapped, topic)));
  }

  private static boolean isBelow(String parent, String topic) {
    return parent.isEmpty() || topic.equals(parent) || topic.startsWith(parent + '/');
  }

  @Override
  public @Nullable Subject authenticate(
      @Nullable String user,
      @Nullable String password,
      RemotingConnection connection,
      @Nullable String securityDomain) {
    if (whyNotLogin(user, password, RemoteAddress.of(connection)) != null) {
      return null;
    }
    RolePrincipal role = isService(user) ? SERVICE : account(user) == null ? ANONYMOUS : ACCOUNT;
    Set<Principal> principals = Set.of(new UserPrincipal(user == null ? "anybody" : user), role);
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
    String user =
        subject.getPrincipals().contains(ANONYMOUS)
            ? null
            : subject.getPrincipals(UserPrincipal.class).stream()
                .map(UserPrincipal::getName)
                .findFirst()
                .orElse("");
    if (user != null && account(user) == null) {
      // The account was removed while its client was connected.
      return false;
    }
    // The broker names an address "topic" or, for a subscription's queue, "topic::queue".
    int queue = address.indexOf("::");
    String topic = queue < 0 ? address : address.substring(0, queue);
    return switch (check) {
      case SEND -> mayPublish(user, topic);
      // The broker checks this before the first message to a topic and before the first
      // subscription
      // to a filter.
      case CREATE_ADDRESS -> mayCreate(user, topic);
      case CREATE_DURABLE_QUEUE,
          CREATE_NON_DURABLE_QUEUE,
          DELETE_DURABLE_QUEUE,
          DELETE_NON_DURABLE_QUEUE,
          CONSUME,
          BROWSE ->
          mayRead(user, topic);
      default -> false;
    };
  }

  /**
   * Whether a user may create an address. The broker does not say whether the address is for a
   * message or for a subscription.
   */
  private boolean mayCreate(@Nullable String user, String topic) {
    BrokerQuota limits = quota;
    String reason = whyNotPublish(user, topic);
    if (reason != null && mayRead(user, topic)) {
      return true;
    }
    if (reason == null && limits != null && !limits.isFilter(topic)) {
      reason = limits.topicRefusal(topic);
    }
    if (reason != null) {
      refused.accept(topic, reason);
    }
    return reason == null;
  }

  private boolean mayPublish(@Nullable String user, String topic) {
    String reason = whyNotPublish(user, topic);
    if (reason != null) {
      refused.accept(topic, reason);
    }
    return reason == null;
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
