package tepidarium.faults;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ThreadLocalRandom;

/** A socket to the broker that sends any bytes and tells what comes back. */
final class HostileClient implements AutoCloseable {
  /** How long an answer may take on a busy machine. */
  private static final int ANSWER_MS = 10_000;

  private static final int CONNACK = 2;
  private static final int PUBLISH = 3;
  private static final int PUBACK = 4;
  private static final int PUBREC = 5;
  private static final int SUBACK = 9;
  private static final int PINGRESP = 13;
  private static final int DISCONNECT = 14;

  /** What came back: an acknowledgement, a refusal or the end, the answer to a ping, or nothing. */
  enum Answer {
    ACKNOWLEDGED,
    REFUSED,
    ALIVE,
    SILENCE
  }

  private final Socket socket = new Socket();
  private final DataInputStream in;
  private final List<byte[]> heard = new ArrayList<>();
  private boolean closed;

  HostileClient(int port) throws IOException {
    socket.setTcpNoDelay(true);
    socket.setSoTimeout(ANSWER_MS);
    socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), ANSWER_MS);
    in = new DataInputStream(new BufferedInputStream(socket.getInputStream()));
  }

  /** A connected client with a name of its own. */
  static HostileClient connected(Target target, int version) throws IOException {
    HostileClient client = new HostileClient(target.mqttPort());
    client.send(MqttBytes.connect(version, "attack-" + ThreadLocalRandom.current().nextInt()));
    if (client.answer() != Answer.ACKNOWLEDGED) {
      client.close();
      throw new IOException("an ordinary client cannot connect");
    }
    return client;
  }

  /** Sends bytes; if the broker has closed the connection meanwhile, {@link #answer} tells. */
  void send(byte[]... packets) {
    try {
      socket.getOutputStream().write(MqttBytes.join(packets));
    } catch (IOException e) {
      closed = true;
    }
  }

  /** Sends a packet that is to be acknowledged; {@link Answer#ALIVE} never comes back. */
  Answer ask(byte[] packet) {
    send(packet);
    Answer answer = answer();
    while (answer == Answer.ALIVE) {
      answer = answer();
    }
    return answer;
  }

  /** Sends packets and a ping after them; {@link Answer#ACKNOWLEDGED} never comes back. */
  Answer ping(byte[]... packets) {
    send(packets);
    send(MqttBytes.PING);
    Answer answer = answer();
    while (answer == Answer.ACKNOWLEDGED) {
      answer = answer();
    }
    return answer;
  }

  /** Waits for the answer to the packet that was sent last. */
  Answer answer() {
    try {
      while (true) {
        int type = in.read();
        if (type < 0) {
          return Answer.REFUSED;
        }
        byte[] body = new byte[length()];
        in.readFully(body);
        switch (type >> 4) {
          case CONNACK:
            return body.length > 1 && body[1] == 0 ? Answer.ACKNOWLEDGED : Answer.REFUSED;
          case PUBACK, PUBREC:
            return body.length > 2 && body[2] < 0 ? Answer.REFUSED : Answer.ACKNOWLEDGED;
          case SUBACK:
            return body[body.length - 1] < 0 ? Answer.REFUSED : Answer.ACKNOWLEDGED;
          case PINGRESP:
            return Answer.ALIVE;
          case DISCONNECT:
            return Answer.REFUSED;
          case PUBLISH:
            heard.add(body);
            break;
          default:
            break;
        }
      }
    } catch (SocketTimeoutException e) {
      return Answer.SILENCE;
    } catch (IOException e) {
      return Answer.REFUSED;
    }
  }

  private int length() throws IOException {
    int length = 0;
    for (int shift = 0; ; shift += 7) {
      int next = in.readUnsignedByte();
      length |= (next & 0x7F) << shift;
      if (next < 0x80) {
        return length;
      }
    }
  }

  /** Whether a message with these bytes in it has come while answers were awaited. */
  boolean heard(byte[] part) {
    String wanted = new String(part, StandardCharsets.ISO_8859_1);
    return heard.stream()
        .anyMatch(body -> new String(body, StandardCharsets.ISO_8859_1).contains(wanted));
  }

  /** Whether the broker answers or closes the connection in so many milliseconds. */
  boolean isAnsweredWithin(int milliseconds) throws IOException {
    socket.setSoTimeout(milliseconds);
    return closed || answer() != Answer.SILENCE;
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
