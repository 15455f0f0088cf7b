package tepidarium.bench;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;

/**
 * A sensor as it is on the wire: MQTT 3.1.1 (OASIS, 2014) over a socket, quality of service 1. It
 * costs next to nothing, since sensors are not what is measured. For one thread.
 */
final class Sensor implements AutoCloseable {
  private static final int CONNECT = 0x10;
  private static final int CONNECTED = 0x20;
  private static final int PUBLISH_QOS_1 = 0x32;
  private static final int PUBLISHED = 0x40;
  private static final int CLEAN_SESSION = 2;

  private final Socket socket;
  private final OutputStream out;
  private final DataInputStream in;
  private int packetId;
  private int unacknowledged;

  /** Connects to the broker at a port of this machine. */
  Sensor(int port, String clientId) {
    try {
      socket = new Socket(InetAddress.getLoopbackAddress(), port);
      socket.setTcpNoDelay(true);
      out = new BufferedOutputStream(socket.getOutputStream(), 1 << 12);
      in = new DataInputStream(new BufferedInputStream(socket.getInputStream(), 1 << 9));
      connect(clientId);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot connect to the broker at port " + port, e);
    }
  }

  private void connect(String clientId) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DataOutputStream body = new DataOutputStream(bytes);
    body.writeUTF("MQTT");
    body.writeByte(4);
    body.writeByte(CLEAN_SESSION);
    body.writeShort(0);
    body.writeUTF(clientId);
    out.write(CONNECT);
    writeLength(bytes.size());
    bytes.writeTo(out);
    out.flush();
    expect(CONNECTED);
  }

  /** Puts a message into the buffer; {@link #settle} sends it and waits. */
  void publish(String topic, byte[] payload) {
    byte[] name = topic.getBytes(StandardCharsets.UTF_8);
    packetId = packetId % 0xFFFF + 1;
    try {
      out.write(PUBLISH_QOS_1);
      writeLength(2 + name.length + 2 + payload.length);
      writeShort(name.length);
      out.write(name);
      writeShort(packetId);
      out.write(payload);
      unacknowledged++;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot publish", e);
    }
  }

  /** Sends what is in the buffer. */
  void flush() {
    try {
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot publish", e);
    }
  }

  /** Sends, and waits until the broker has acknowledged everything. */
  void settle() {
    flush();
    try {
      while (unacknowledged > 0) {
        expect(PUBLISHED);
        unacknowledged--;
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the broker did not acknowledge", e);
    }
  }

  private void expect(int packet) throws IOException {
    int type = in.readUnsignedByte();
    int length = in.readUnsignedByte();
    int detail = in.readUnsignedShort();
    if (type != packet || length != 2 || (packet == CONNECTED && (detail & 0xFF) != 0)) {
      throw new IOException("unexpected answer " + type + ", " + length + ", " + detail);
    }
  }

  private void writeShort(int value) throws IOException {
    out.write(value >> 8);
    out.write(value);
  }

  private void writeLength(int length) throws IOException {
    int rest = length;
    while (rest > 0x7F) {
      out.write((rest & 0x7F) | 0x80);
      rest >>= 7;
    }
    out.write(rest);
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
