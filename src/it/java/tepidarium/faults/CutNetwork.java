package tepidarium.faults;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.util.function.Supplier;

/** A TCP proxy in front of a broker that cuts connections at the worst moments of MQTT. */
final class CutNetwork implements AutoCloseable {
  /** What happens to a connection. */
  enum Cut {
    /** Nothing. */
    NONE,
    /** It ends at once. */
    REFUSED,
    /** It stays open, and no byte passes. */
    SILENT,
    /** It ends after CONNACK, before the message reaches the broker. */
    BEFORE_PUBLISH,
    /** It ends after the broker has taken the message, before the sensor learns of it. */
    BEFORE_PUBACK
  }

  private static final int CONNACK_BYTES = 4;

  private final TcpProxy proxy;
  private final int brokerPort;

  private CutNetwork(int brokerPort, Supplier<Cut> next) {
    this.brokerPort = brokerPort;
    proxy =
        TcpProxy.start(
            sensor -> {
              Cut cut = next.get();
              return () -> carry(sensor, cut);
            });
  }

  /** Starts a proxy; each connection asks for its fate. */
  static CutNetwork before(int brokerPort, Supplier<Cut> next) {
    return new CutNetwork(brokerPort, next);
  }

  /** Where sensors connect to. */
  int port() {
    return proxy.port();
  }

  private void carry(Socket sensor, Cut cut) {
    try (sensor) {
      if (cut == Cut.SILENT) {
        sensor.getInputStream().transferTo(OutputStream.nullOutputStream());
      } else if (cut != Cut.REFUSED) {
        connect(sensor, cut);
      }
    } catch (IOException e) {
      // One of the two has gone, as in any network.
    }
  }

  private void connect(Socket sensor, Cut cut) throws IOException {
    try (Socket broker = TcpProxy.connect(brokerPort)) {
      TcpProxy.daemon(() -> carryAnswers(broker, sensor, cut));
      InputStream in = sensor.getInputStream();
      byte[] packet = new byte[65_536];
      for (int packets = 0; ; packets++) {
        int length = in.read(packet);
        if (length < 0 || cut == Cut.BEFORE_PUBLISH && packets > 0) {
          return;
        }
        broker.getOutputStream().write(packet, 0, length);
      }
    }
  }

  private static void carryAnswers(Socket broker, Socket sensor, Cut cut) {
    try (broker;
        sensor) {
      InputStream in = broker.getInputStream();
      if (cut == Cut.BEFORE_PUBACK) {
        sensor.getOutputStream().write(in.readNBytes(CONNACK_BYTES));
        in.read();
      } else {
        in.transferTo(sensor.getOutputStream());
      }
    } catch (IOException e) {
      // One of the two has gone, as in any network.
    }
  }

  @Override
  public void close() {
    proxy.close();
  }
}
