package tepidarium.ingest.mqtt;

import io.netty.channel.ChannelPipeline;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.apache.activemq.artemis.api.core.BaseInterceptor;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTProtocolHandler;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTProtocolManagerFactory;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.spi.core.protocol.ProtocolManager;

/**
 * Creates MQTT protocol managers that limit each connection of the embedded broker: a {@link
 * PacketLimit} before the decoder, and a {@link SubscriptionLimit} after it.
 */
final class LimitedMqttFactory extends MQTTProtocolManagerFactory {
  private final Supplier<PacketLimit> packets;
  private final Function<ActiveMQServer, SubscriptionLimit> subscriptions;

  LimitedMqttFactory(
      Supplier<PacketLimit> packets, Function<ActiveMQServer, SubscriptionLimit> subscriptions) {
    this.packets = packets;
    this.subscriptions = subscriptions;
  }

  /** Wraps the broker's own manager in a proxy, because its class cannot be extended. */
  @Override
  @SuppressWarnings("rawtypes")
  public ProtocolManager createProtocolManager(
      ActiveMQServer server,
      Map<String, Object> parameters,
      List<BaseInterceptor> incoming,
      List<BaseInterceptor> outgoing)
      throws Exception {
    ProtocolManager manager = super.createProtocolManager(server, parameters, incoming, outgoing);
    return (ProtocolManager)
        Proxy.newProxyInstance(
            LimitedMqttFactory.class.getClassLoader(),
            new Class<?>[] {ProtocolManager.class},
            (proxy, method, arguments) -> {
              boolean connecting = method.getName().equals("addChannelHandlers");
              try {
                if (!connecting) {
                  return method.invoke(manager, arguments);
                }
                ChannelPipeline handlers = (ChannelPipeline) arguments[0];
                handlers.addLast(packets.get());
                method.invoke(manager, arguments);
                String last = handlers.context(MQTTProtocolHandler.class).name();
                handlers.addBefore(last, "subscription-limit", subscriptions.apply(server));
                return null;
              } catch (InvocationTargetException e) {
                throw e.getCause();
              }
            });
  }
}
