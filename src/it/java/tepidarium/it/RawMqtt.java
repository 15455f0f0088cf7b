package tepidarium.it;

import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/**
 * An MQTT client on a bare socket that sends any bytes as topic, payload or properties. Written
 * after the OASIS standards MQTT 3.1.1 and MQTT 5.0, sections 2 and 3.
 */
public final class RawMqtt implements AutoCloseable {
  /** Of topics and payloads. */
  public static final Charset CHARSET = StandardCharsets.UTF_8;

  private static final int TIMEOUT_MS = 10_000;

  /** A packet from the broker; a type of -1 means that the broker closed the connection. */
  public record Packet(int type, byte[] body) {
    /** The reason code of a CONNACK, or of a PUBACK or DISCONNECT of version 5. */
    public int reason() {
      return switch (type) {
        case 2 -> body[1] & 0xFF;
        case 4 -> body.length > 2 ? body[2] & 0xFF : 0;
        case 14 -> body.length > 0 ? body[0] & 0xFF : 0;
        default -> -1;
      };
    }

    /** The quality of service that a SUBACK grants, or the reason code why not. */
    public int granted() {
      return type == 9 ? body[body.length - 1] & 0xFF : -1;
    }

    /** Whether the broker closed the connection or announced that it does. */
    public boolean ended() {
      return type < 0 || type == 14;
    }
  }

  /** Writes parts of a packet. */
  private interface Body {
    void to(DataOutputStream out) throws IOException;
  }

  private final Socket socket = new Socket();
  private final DataInputStream in;
  private final int version;

  /** Opens a connection; {@link #connect} logs in. Version 4 is MQTT 3.1.1. */
  public RawMqtt(int port, int version) throws IOException {
    this(null, port, version);
  }

  private RawMqtt(String localAddress, int port, int version) throws IOException {
    this.version = version;
    if (localAddress != null) {
      socket.bind(new InetSocketAddress(localAddress, 0));
    }
    socket.setTcpNoDelay(true);
    socket.setSoTimeout(TIMEOUT_MS);
    socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), TIMEOUT_MS);
    in = new DataInputStream(socket.getInputStream());
  }

  /** Opens a connection from an address of this machine. */
  public static RawMqtt from(String localAddress, int port, int version) throws IOException {
    return new RawMqtt(localAddress, port, version);
  }

  /** A connection that is logged in without a name, with a clean session. */
  public static RawMqtt connected(int port, int version, String clientId) throws IOException {
    RawMqtt client = new RawMqtt(port, version);
    Packet answer = client.connect(clientId, null, null, null, 0);
    if (answer.type() != 2 || answer.reason() != 0) {
      client.close();
      throw new IOException("not let in: " + answer);
    }
    return client;
  }

  /**
   * Logs in.
   *
   * @param willTopic topic of a will of one byte, or null
   * @param expirySeconds session expiry of version 5; -1 means never; 0 asks for a clean session,
   *     in version 3.1.1 all others for one that is kept
   */
  public Packet connect(
      String clientId, String user, String password, byte[] willTopic, int expirySeconds)
      throws IOException {
    int flags =
        (expirySeconds == 0 ? 0x02 : 0)
            | (willTopic == null ? 0 : 0x04)
            | (user == null ? 0 : 0x80)
            | (password == null ? 0 : 0x40);
    send(
        0x10,
        out -> {
          out.writeUTF("MQTT");
          out.writeByte(version);
          out.writeByte(flags);
          out.writeShort(0);
          if (version == 5) {
            out.writeByte(5);
            out.writeByte(0x11);
            out.writeInt(expirySeconds);
          }
          text(out, utf8(clientId));
          if (willTopic != null) {
            if (version == 5) {
              out.writeByte(0);
            }
            text(out, willTopic);
            text(out, utf8("1"));
          }
          if (user != null) {
            text(out, utf8(user));
          }
          if (password != null) {
            text(out, utf8(password));
          }
        });
    return next();
  }

  /** Publishes with quality of service 1 and waits for the broker's answer. */
  public Packet publish(byte[] topic, byte[] properties, byte[] payload) throws IOException {
    offer(1, topic, properties, payload);
    return next();
  }

  /** Publishes with quality of service 1 and waits for the broker's answer. */
  public Packet publish(String topic, String payload) throws IOException {
    return publish(utf8(topic), new byte[0], utf8(payload));
  }

  /** Publishes a retained message with quality of service 1 and waits for the broker's answer. */
  public Packet retain(String topic, String payload) throws IOException {
    publish(0x33, 1, utf8(topic), new byte[0], utf8(payload));
    return next();
  }

  /** Publishes with quality of service 1 without waiting. */
  public void offer(int packetId, byte[] topic, byte[] properties, byte[] payload)
      throws IOException {
    publish(0x32, packetId, topic, properties, payload);
  }

  private void publish(int first, int packetId, byte[] topic, byte[] properties, byte[] payload)
      throws IOException {
    send(
        first,
        out -> {
          text(out, topic);
          out.writeShort(packetId);
          if (version == 5) {
            out.writeByte(properties.length);
            out.write(properties);
          }
          out.write(payload);
        });
  }

  /** Subscribes with quality of service 1; the answer. */
  public Packet subscribe(String filter) throws IOException {
    send(
        0x82,
        out -> {
          out.writeShort(1);
          if (version == 5) {
            out.writeByte(0);
          }
          text(out, utf8(filter));
          out.writeByte(1);
        });
    return next();
  }

  /** The next packet from the broker. */
  public Packet next() throws IOException {
    try {
      int first = in.read();
      if (first < 0) {
        return new Packet(-1, new byte[0]);
      }
      int length = 0;
      for (int shift = 0; ; shift += 7) {
        int b = in.readUnsignedByte();
        length |= (b & 0x7F) << shift;
        if (b < 0x80) {
          break;
        }
      }
      byte[] body = new byte[length];
      in.readFully(body);
      return new Packet(first >> 4, body);
    } catch (SocketTimeoutException e) {
      throw e;
    } catch (EOFException | java.net.SocketException e) {
      return new Packet(-1, new byte[0]);
    }
  }

  private void send(int first, Body body) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    body.to(new DataOutputStream(bytes));
    ByteArrayOutputStream packet = new ByteArrayOutputStream();
    packet.write(first);
    int rest = bytes.size();
    while (rest >= 0x80) {
      packet.write((rest & 0x7F) | 0x80);
      rest >>= 7;
    }
    packet.write(rest);
    bytes.writeTo(packet);
    socket.getOutputStream().write(packet.toByteArray());
  }

  private static void text(DataOutputStream out, byte[] text) throws IOException {
    out.writeShort(text.length);
    out.write(text);
  }

  /** The bytes of a text. */
  public static byte[] utf8(String text) {
    return text.getBytes(CHARSET);
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      // It is closed either way.
    }
  }
}
