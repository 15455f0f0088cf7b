package tepidarium.it;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;

/** A sensor gone mad: publishes with quality of service 0 as fast as the broker reads. */
public final class Flood implements AutoCloseable {
  private static final int MESSAGES_AT_ONCE = 500;

  private final Socket socket;
  private final Thread thread;
  private volatile long sent;

  private Flood(Socket socket, byte[] messages) {
    this.socket = socket;
    this.thread = new Thread(() -> send(messages), "flood");
    thread.setDaemon(true);
    thread.start();
  }

  /** Floods the topic {@code tepidarium/mad} until it is closed. */
  public static Flood start(int port, String clientId) throws IOException {
    Socket socket = new Socket(InetAddress.getLoopbackAddress(), port);
    socket.getOutputStream().write(connect(clientId));
    byte[] answer = socket.getInputStream().readNBytes(4);
    if (answer[3] != 0) {
      throw new IOException("not let in: " + answer[3]);
    }
    return new Flood(socket, messages());
  }

  /** CONNECT of MQTT 3.1.1, section 3.1, with a clean session. */
  private static byte[] connect(String clientId) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(bytes);
    out.writeByte(0x10);
    out.writeByte(12 + clientId.length());
    out.writeUTF("MQTT");
    out.writeByte(4);
    out.writeByte(2);
    out.writeShort(0);
    out.writeUTF(clientId);
    return bytes.toByteArray();
  }

  private static byte[] messages() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(bytes);
    byte[] payload = RawMqtt.utf8("{\"temperature\":30.5,\"humidity\":90}");
    String topic = "tepidarium/mad";
    for (int i = 0; i < MESSAGES_AT_ONCE; i++) {
      out.writeByte(0x30);
      out.writeByte(2 + topic.length() + payload.length);
      out.writeUTF(topic);
      out.write(payload);
    }
    return bytes.toByteArray();
  }

  private void send(byte[] messages) {
    try {
      while (true) {
        socket.getOutputStream().write(messages);
        sent += MESSAGES_AT_ONCE;
      }
    } catch (IOException e) {
      // The socket is closed.
    }
  }

  /** Number of messages that the broker's machine has taken, including those in its buffers. */
  public long sent() {
    return sent;
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}
