package tepidarium.faults;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;

/**
 * The least of MQTT 3.1.1 that a sensor needs, without a thread or a memory of its own, so that
 * thousands fit into a test and it is known exactly what was acknowledged. Written after the OASIS
 * standard "MQTT Version 3.1.1", sections 2.2, 3.1 to 3.4.
 */
public final class MqttSocket implements AutoCloseable {
  private static final int TIMEOUT_MS = 10_000;
  private static final int CONNECT = 0x10;
  private static final int CONNACK = 0x20;
  private static final int PUBLISH_QOS_1 = 0x32;
  private static final int AGAIN = 0x08;
  private static final int PUBACK = 0x40;
  private static final int CLEAN_SESSION = 0x02;

  private final Socket socket = new Socket();
  private final DataInputStream in;
  private final DataOutputStream out;

  /** Connects and asks to be let in; {@link #awaitConnected} has the answer. */
  public MqttSocket(int port, String clientId, int bufferBytes) throws IOException {
    this("127.0.0.1", port, clientId, bufferBytes);
  }

  /** The same to another address than the loopback one. */
  MqttSocket(String host, int port, String clientId, int bufferBytes) throws IOException {
    socket.setTcpNoDelay(true);
    socket.setSoTimeout(TIMEOUT_MS);
    try {
      socket.connect(new InetSocketAddress(host, port), TIMEOUT_MS);
      in = new DataInputStream(new BufferedInputStream(socket.getInputStream(), bufferBytes));
      out = new DataOutputStream(new BufferedOutputStream(socket.getOutputStream(), bufferBytes));
      byte[] id = clientId.getBytes(StandardCharsets.UTF_8);
      out.writeByte(CONNECT);
      writeLength(10 + 2 + id.length);
      out.writeUTF("MQTT");
      out.writeByte(4);
      out.writeByte(CLEAN_SESSION);
      out.writeShort(0);
      out.writeShort(id.length);
      out.write(id);
      out.flush();
    } catch (IOException e) {
      socket.close();
      throw e;
    }
  }

  public void awaitConnected() throws IOException {
    expect(CONNACK);
    int result = in.readUnsignedShort() & 0xFF;
    if (result != 0) {
      throw new IOException("refused with " + result);
    }
  }

  private void expect(int type) throws IOException {
    int found = in.read();
    if (found < 0) {
      throw new EOFException("the broker has gone");
    }
    if (found != type || in.read() != 2) {
      throw new IOException("unexpected packet " + found);
    }
  }

  /** Publishes with quality of service 1; {@link #flush} sends it off. */
  public void publish(int packetId, String topic, byte[] payload, boolean again)
      throws IOException {
    byte[] name = topic.getBytes(StandardCharsets.UTF_8);
    out.writeByte(PUBLISH_QOS_1 | (again ? AGAIN : 0));
    writeLength(2 + name.length + 2 + payload.length);
    out.writeShort(name.length);
    out.write(name);
    out.writeShort(packetId);
    out.write(payload);
  }

  private void writeLength(int length) throws IOException {
    int rest = length;
    while (rest >= 0x80) {
      out.writeByte((rest & 0x7F) | 0x80);
      rest >>= 7;
    }
    out.writeByte(rest);
  }

  public void flush() throws IOException {
    out.flush();
  }

  /** Waits for the next acknowledgement; its packet id. */
  public int acknowledged() throws IOException {
    expect(PUBACK);
    return in.readUnsignedShort();
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // It is gone either way.
    }
  }
}
