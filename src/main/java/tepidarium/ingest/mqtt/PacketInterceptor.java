package tepidarium.ingest.mqtt;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.ByteBufUtil;
import io.netty.channel.Channel;
import io.netty.handler.codec.mqtt.MqttConnectMessage;
import io.netty.handler.codec.mqtt.MqttConnectReturnCode;
import io.netty.handler.codec.mqtt.MqttMessage;
import io.netty.handler.codec.mqtt.MqttMessageBuilders;
import io.netty.handler.codec.mqtt.MqttProperties;
import io.netty.handler.codec.mqtt.MqttPublishMessage;
import io.netty.handler.codec.mqtt.MqttSubscribeMessage;
import io.netty.handler.codec.mqtt.MqttTopicSubscription;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTInterceptor;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTReasonCodes;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTStateManager;
import org.apache.activemq.artemis.core.remoting.impl.netty.NettyConnection;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.HeardMessages;

/**
 * Checks packets of clients before the embedded broker processes them. Refuses wrong passwords,
 * client ids that belong to other accounts, and topics with forbidden characters. Closes the
 * connection of a refused client and sends the MQTT reason code if the client's MQTT version has
 * one. Called by the broker's network threads.
 */
final class PacketInterceptor implements MQTTInterceptor {
  private static final Logger LOG = LoggerFactory.getLogger(PacketInterceptor.class);
  private static final int MQTT_5 = 5;
  private static final String SHARED = "$share/";

  /** When more owners than this are stored, those without a session are removed. */
  private static final int MAX_OWNERS = 10_000;

  private final ActiveMQServer server;
  private final BrokerAccounts accounts;
  private final LoginLimit logins;
  private final AnonymousRefusals anonymous;
  private final BrokerQuota quota;
  private final SensorConnections connections;

  /** The account of each client id while the broker has a session for it. */
  private final Map<String, String> owners = new ConcurrentHashMap<>();

  PacketInterceptor(
      ActiveMQServer server,
      BrokerAccounts accounts,
      LoginLimit logins,
      AnonymousRefusals anonymous,
      BrokerQuota quota,
      SensorConnections connections) {
    this.server = server;
    this.accounts = accounts;
    this.logins = logins;
    this.anonymous = anonymous;
    this.quota = quota;
    this.connections = connections;
  }

  @Override
  public boolean intercept(MqttMessage packet, RemotingConnection connection) {
    return switch (packet.fixedHeader().messageType()) {
      case CONNECT -> mayConnect((MqttConnectMessage) packet, connection);
      case PUBLISH -> mayPublish((MqttPublishMessage) packet, connection);
      case SUBSCRIBE -> maySubscribe((MqttSubscribeMessage) packet, connection);
      default -> true;
    };
  }

  private boolean mayPublish(MqttPublishMessage packet, RemotingConnection connection) {
    String topic = packet.variableHeader().topicName();
    // In MQTT 5 an empty topic refers to a topic alias.
    String problem = topic.isEmpty() ? null : TopicNames.problemEmbedded(topic);
    if (problem != null) {
      accounts.reportRefused(topic, problem);
      return disconnect(connection, MQTTReasonCodes.TOPIC_NAME_INVALID);
    }
    String refusal = packet.fixedHeader().isRetain() ? retainRefusal(topic, connection) : null;
    if (refusal != null) {
      accounts.reportRefused(topic, refusal);
      return disconnect(connection, MQTTReasonCodes.QUOTA_EXCEEDED);
    }
    keepUnread(topic, packet.payload());
    return true;
  }

  /** Keeps the payload of a message that no rule reads, so that a rule can be tried on it. */
  private void keepUnread(String topic, ByteBuf payload) {
    if (!topic.isEmpty()
        && payload.readableBytes() <= HeardMessages.MAX_PAYLOAD_BYTES
        && accounts.isUnread(topic)) {
      accounts.reportUnread(topic, ByteBufUtil.getBytes(payload));
    }
  }

  private @Nullable String retainRefusal(String topic, RemotingConnection connection) {
    String clientId = connection.getClientID();
    boolean service = clientId != null && accounts.isServiceClient(clientId);
    return service ? null : quota.retainRefusal(server, topic);
  }

  private boolean maySubscribe(MqttSubscribeMessage packet, RemotingConnection connection) {
    String clientId = connection.getClientID();
    if (clientId != null && TopicNames.namesQueue(clientId)) {
      logins.refused(
          RemoteAddress.words(connection)
              + ": the client id \""
              + clientId
              + "\" contains two colons in a row: choose another client id to subscribe");
      return disconnect(connection, MQTTReasonCodes.NOT_AUTHORIZED);
    }
    for (MqttTopicSubscription subscription : packet.payload().topicSubscriptions()) {
      String filter = subscription.topicFilter();
      // The group name of a shared subscription could be chosen to read another client's queue.
      if (filter.startsWith(SHARED)) {
        return disconnect(connection, MQTTReasonCodes.SHARED_SUBSCRIPTIONS_NOT_SUPPORTED);
      }
      if (TopicNames.problemEmbedded(filter) != null) {
        return disconnect(connection, MQTTReasonCodes.TOPIC_FILTER_INVALID);
      }
    }
    return true;
  }

  private boolean mayConnect(MqttConnectMessage packet, RemotingConnection connection) {
    int version = packet.variableHeader().version();
    String user = packet.payload().userName();
    String name = user == null ? "" : user;
    byte[] bytes = packet.payload().passwordInBytes();
    String password = bytes == null ? null : new String(bytes, StandardCharsets.UTF_8);
    String host = RemoteAddress.words(connection);
    boolean service = accounts.isService(name);
    InetAddress from = RemoteAddress.of(connection);
    // The service has a separate limit. Otherwise, guessing its password would block clients
    // without a user name.
    String account = service || accounts.hasAccount(name) ? name : "";
    String given = packet.payload().clientIdentifier();
    String clientId = given == null ? "" : given;
    LoginLimit.Client client = new LoginLimit.Client(account, host, clientId);
    if (!service && !name.isEmpty() && logins.isBlocked(client)) {
      logins.refused(
          quoted(name, host) + ": too many wrong passwords; wait a minute, then try again");
      return refuse(connection, version, MQTTReasonCodes.CONNECTION_RATE_EXCEEDED);
    }
    BrokerAccounts.Refusal refusal = accounts.whyNotLogin(user, password, from);
    if (refusal == BrokerAccounts.Refusal.NO_ACCOUNT) {
      anonymous.add(clientId, host);
      return refuse(connection, version, MQTTReasonCodes.NOT_AUTHORIZED);
    }
    if (refusal != null) {
      logins.failed(client);
      logins.refused(quoted(name, host) + ": wrong name or password");
      return refuse(connection, version, MQTTReasonCodes.BAD_USER_NAME_OR_PASSWORD);
    }
    if (!mayUseClientId(clientId, account)) {
      logins.refused(
          quoted(name, host) + ": the client id \"" + clientId + "\" belongs to another account");
      return refuse(connection, version, MQTTReasonCodes.CLIENT_IDENTIFIER_NOT_VALID);
    }
    if (accounts.areConfigured()) {
      logins.succeeded(client);
    }
    if (!maySetWill(packet, user, connection)) {
      return false;
    }
    loggedIn(connection, account, service, clientId);
    return true;
  }

  private void loggedIn(
      RemotingConnection connection, String account, boolean service, String clientId) {
    if (!(connection.getTransportConnection() instanceof NettyConnection netty)) {
      return;
    }
    connections.loggedIn(netty.getChannel());
    PacketLimit limit = netty.getChannel().pipeline().get(PacketLimit.class);
    if (limit == null) {
      return;
    }
    if (service) {
      limit.unlimited();
    } else {
      String words = "the client \"" + clientId + "\" at " + RemoteAddress.words(connection);
      limit.loggedIn(words, account.isEmpty() ? null : account);
    }
  }

  private boolean maySetWill(
      MqttConnectMessage packet, @Nullable String user, RemotingConnection connection) {
    if (!packet.variableHeader().isWillFlag()) {
      return true;
    }
    String topic = packet.payload().willTopic();
    String problem = TopicNames.problemEmbedded(topic);
    String reason = problem == null ? accounts.whyNotPublish(user, topic) : problem;
    if (reason == null) {
      return true;
    }
    accounts.reportRefused(topic, reason);
    return refuse(connection, packet.variableHeader().version(), MQTTReasonCodes.NOT_AUTHORIZED);
  }

  /**
   * Whether the account may use the client id. The id of the service is reserved. With accounts, an
   * id belongs to the account that used it first. A sensor that gets an account keeps its id.
   *
   * @param name the account; empty for none
   */
  private boolean mayUseClientId(@Nullable String clientId, String name) {
    if (clientId == null || clientId.isEmpty()) {
      return true;
    }
    if (accounts.isServiceClient(clientId)) {
      return accounts.isService(name);
    }
    if (!accounts.areConfigured()) {
      return true;
    }
    removeIdleOwners();
    String owner = owners.get(clientId);
    if (owner != null && !owner.isEmpty() && !owner.equals(name) && hasSession(clientId)) {
      return false;
    }
    owners.put(clientId, name);
    return true;
  }

  private void removeIdleOwners() {
    if (owners.size() > MAX_OWNERS) {
      owners.keySet().removeIf(id -> !hasSession(id));
    }
  }

  private boolean hasSession(String clientId) {
    try {
      MQTTStateManager sessions = MQTTStateManager.getInstance(server);
      return sessions.isClientConnected(clientId)
          || sessions.getSessionStates().containsKey(clientId);
    } catch (Exception e) {
      LOG.debug("cannot look up the session of {}", clientId, e);
      return true;
    }
  }

  private static String quoted(String name, String host) {
    return (name.isEmpty() ? "a client without a name" : '"' + name + '"') + " at " + host;
  }

  /** Refuses a login with the reason code of the client's MQTT version. */
  private static boolean refuse(RemotingConnection connection, int version, byte reason) {
    MqttConnectReturnCode code =
        version >= MQTT_5
            ? MqttConnectReturnCode.valueOf(reason)
            : reason == MQTTReasonCodes.CLIENT_IDENTIFIER_NOT_VALID
                ? MqttConnectReturnCode.CONNECTION_REFUSED_IDENTIFIER_REJECTED
                : MqttConnectReturnCode.CONNECTION_REFUSED_NOT_AUTHORIZED;
    send(
        connection,
        MqttMessageBuilders.connAck()
            .returnCode(code)
            .properties(MqttProperties.NO_PROPERTIES)
            .sessionPresent(false)
            .build());
    return false;
  }

  /** Lets the broker close the connection. An MQTT 5 client first receives the reason code. */
  private static boolean disconnect(RemotingConnection connection, byte reason) {
    if (connection.getProtocolName().endsWith(Integer.toString(MQTT_5))) {
      send(connection, MqttMessageBuilders.disconnect().reasonCode(reason).build());
    }
    return false;
  }

  private static void send(RemotingConnection connection, MqttMessage packet) {
    if (connection.getTransportConnection() instanceof NettyConnection netty) {
      Channel channel = netty.getChannel();
      var unused = channel.writeAndFlush(packet, channel.voidPromise());
    }
  }
}
