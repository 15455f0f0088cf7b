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
 * Keeps back acknowledgements of the embedded broker once it has begun to stop, in order or because
 * its journal failed. By then it may have let go of its queues while sensors are still connected,
 * and what they publish goes nowhere; without an acknowledgement they send it again.
 */
final class NoLateAcknowledgements implements MQTTInterceptor, IOCriticalErrorListener {
  private static final Set<MqttMessageType> ACKNOWLEDGEMENTS =
      EnumSet.of(MqttMessageType.PUBACK, MqttMessageType.PUBREC, MqttMessageType.PUBCOMP);

  private final ActiveMQServer server;
  private volatile boolean journalFailed;

  private NoLateAcknowledgements(ActiveMQServer server) {
    this.server = server;
  }

  /** Watches the broker, which has just started and lets no sensor in yet. */
  static void over(ActiveMQServer server) {
    NoLateAcknowledgements guard = new NoLateAcknowledgements(server);
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
