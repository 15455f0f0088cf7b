package tepidarium.ingest.mqtt;

import io.netty.handler.codec.mqtt.MqttMessage;
import io.netty.handler.codec.mqtt.MqttMessageType;
import java.util.EnumSet;
import java.util.Set;
import org.apache.activemq.artemis.core.io.IOCriticalErrorListener;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTInterceptor;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.jspecify.annotations.Nullable;

/**
 * Suppresses acknowledgements of the embedded broker while it is stopping or after its journal has
 * failed. The broker may then no longer store the messages of sensors that are still connected.
 * Without an acknowledgement, the sensors send these messages again.
 */
final class AcknowledgementGuard implements MQTTInterceptor, IOCriticalErrorListener {
  private static final Set<MqttMessageType> ACKNOWLEDGEMENTS =
      EnumSet.of(MqttMessageType.PUBACK, MqttMessageType.PUBREC, MqttMessageType.PUBCOMP);

  private final ActiveMQServer server;
  private volatile boolean journalFailed;

  private AcknowledgementGuard(ActiveMQServer server) {
    this.server = server;
  }

  /** Installs the guard in a broker that has started but does not accept sensors yet. */
  static void install(ActiveMQServer server) {
    AcknowledgementGuard guard = new AcknowledgementGuard(server);
    server.registerIOCriticalErrorListener(guard);
    server.getRemotingService().addOutgoingInterceptor(guard);
  }

  @Override
  public void onIOException(
      @Nullable Throwable code, @Nullable String message, @Nullable String file) {
    journalFailed = true;
  }

  @Override
  public boolean intercept(MqttMessage packet, RemotingConnection connection) {
    return !ACKNOWLEDGEMENTS.contains(packet.fixedHeader().messageType())
        || (!journalFailed && server.getState() == ActiveMQServer.SERVER_STATE.STARTED);
  }
}
