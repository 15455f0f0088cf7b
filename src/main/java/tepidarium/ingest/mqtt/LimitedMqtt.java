package tepidarium.ingest.mqtt;

import io.netty.channel.ChannelPipeline;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.apache.activemq.artemis.api.core.BaseInterceptor;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTProtocolManagerFactory;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.spi.core.protocol.ProtocolManager;

/**
 * MQTT of the embedded broker, with a {@link PacketLimit} before the decoder of each connection.
 */
final class LimitedMqtt extends MQTTProtocolManagerFactory {
  private final Supplier<PacketLimit> limits;

  LimitedMqtt(Supplier<PacketLimit> limits) {
    this.limits = limits;
  }

  /** The broker's own manager cannot be extended, so each call is passed on to it. */
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
            LimitedMqtt.class.getClassLoader(),
            new Class<?>[] {ProtocolManager.class},
            (proxy, method, arguments) -> {
              if (method.getName().equals("addChannelHandlers")) {
                ((ChannelPipeline) arguments[0]).addLast(limits.get());
              }
              try {
                return method.invoke(manager, arguments);
              } catch (InvocationTargetException e) {
                throw e.getCause();
              }
            });
  }
}
