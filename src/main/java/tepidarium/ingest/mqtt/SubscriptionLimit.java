package tepidarium.ingest.mqtt;

import io.netty.channel.ChannelDuplexHandler;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelPromise;
import io.netty.handler.codec.mqtt.MqttConnAckMessage;
import io.netty.handler.codec.mqtt.MqttConnectMessage;
import io.netty.handler.codec.mqtt.MqttConnectReturnCode;
import io.netty.handler.codec.mqtt.MqttFixedHeader;
import io.netty.handler.codec.mqtt.MqttMessageIdAndPropertiesVariableHeader;
import io.netty.handler.codec.mqtt.MqttMessageType;
import io.netty.handler.codec.mqtt.MqttProperties;
import io.netty.handler.codec.mqtt.MqttQoS;
import io.netty.handler.codec.mqtt.MqttSubAckMessage;
import io.netty.handler.codec.mqtt.MqttSubAckPayload;
import io.netty.handler.codec.mqtt.MqttSubscribeMessage;
import io.netty.handler.codec.mqtt.MqttTopicSubscription;
import java.util.Arrays;
import java.util.List;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTReasonCodes;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.jspecify.annotations.Nullable;

/**
 * Refuses subscriptions of one MQTT connection when the broker's quota is used up. It must run
 * before the broker handles the packet, because the broker creates an address for each filter.
 * Refuses a SUBSCRIBE packet as a whole (MQTT 5.0, section 3.9.3: 0x97; MQTT 3.1.1, section 3.9.3:
 * 0x80) and keeps the connection. Runs after the MQTT decoder. Used by the connection's network
 * thread.
 */
final class SubscriptionLimit extends ChannelDuplexHandler {
  private static final int MQTT_5 = 5;
  private static final int FAILURE = 0x80;

  private final ActiveMQServer server;
  private final BrokerAccounts accounts;
  private final BrokerQuota quota;

  private String clientId = "";
  private @Nullable String user;
  private int version;
  private boolean loginRefused;

  SubscriptionLimit(ActiveMQServer server, BrokerAccounts accounts, BrokerQuota quota) {
    this.server = server;
    this.accounts = accounts;
    this.quota = quota;
  }

  @Override
  public void channelRead(ChannelHandlerContext context, Object message) throws Exception {
    if (message instanceof MqttConnectMessage connect && connect.decoderResult().isSuccess()) {
      readLogin(context, connect);
    }
    if (message instanceof MqttSubscribeMessage subscribe
        && subscribe.decoderResult().isSuccess()
        && !accepts(subscribe)) {
      refuse(context, subscribe);
      return;
    }
    super.channelRead(context, message);
  }

  private void readLogin(ChannelHandlerContext context, MqttConnectMessage connect) {
    String given = connect.payload().clientIdentifier();
    // The broker generates an id for a client that has none. Until the next count, which reads the
    // generated id, the channel id stands for it.
    clientId = given == null || given.isEmpty() ? context.channel().id().asShortText() : given;
    user = connect.payload().userName();
    version = connect.variableHeader().version();
  }

  private boolean accepts(MqttSubscribeMessage subscribe) {
    // A client may send this packet before it learns that its login was refused. The broker then
    // ignores the packet.
    if (loginRefused || accounts.isServiceClient(clientId)) {
      return true;
    }
    // Filters that this user may not read need no quota, because the broker refuses them.
    List<String> filters =
        subscribe.payload().topicSubscriptions().stream()
            .map(MqttTopicSubscription::topicFilter)
            .filter(filter -> accounts.mayRead(user, filter))
            .toList();
    return quota.acceptSubscriptions(server, clientId, filters);
  }

  private void refuse(ChannelHandlerContext context, MqttSubscribeMessage subscribe) {
    int reason = version >= MQTT_5 ? MQTTReasonCodes.QUOTA_EXCEEDED & 0xFF : FAILURE;
    int[] reasons = new int[subscribe.payload().topicSubscriptions().size()];
    Arrays.fill(reasons, reason);
    var unused =
        context.writeAndFlush(
            new MqttSubAckMessage(
                new MqttFixedHeader(MqttMessageType.SUBACK, false, MqttQoS.AT_MOST_ONCE, false, 0),
                new MqttMessageIdAndPropertiesVariableHeader(
                    subscribe.variableHeader().messageId(), MqttProperties.NO_PROPERTIES),
                new MqttSubAckPayload(reasons)));
  }

  @Override
  public void write(ChannelHandlerContext context, Object message, ChannelPromise promise)
      throws Exception {
    if (message instanceof MqttConnAckMessage answer
        && answer.variableHeader().connectReturnCode()
            != MqttConnectReturnCode.CONNECTION_ACCEPTED) {
      loginRefused = true;
    }
    super.write(context, message, promise);
  }
}
