package tepidarium.faults;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/**
 * Makes MQTT packets byte by byte, valid and invalid ones. Written after the OASIS standards "MQTT
 * Version 3.1.1" and "MQTT Version 5.0", sections 2 and 3.
 */
final class MqttBytes {
  static final int V3 = 4;
  static final int V5 = 5;

  static final int CLEAN = 0x02;
  static final int WILL_QOS_1 = 0x0C;
  static final byte[] PING = {(byte) 0xC0, 0};
  static final byte[] NO_PROPERTIES = {0};

  private MqttBytes() {}

  /** A CONNECT packet with a clean session and nothing else. */
  static byte[] connect(int version, String clientId) {
    return connect(version, CLEAN, NO_PROPERTIES, text(clientId));
  }

  /**
   * A CONNECT packet without keep-alive.
   *
   * @param flags the connect flags, section 3.1.2.3
   * @param properties with their length in front; left out in version 3
   * @param payload the client id and the further fields that the flags announce
   */
  static byte[] connect(int version, int flags, byte[] properties, byte[]... payload) {
    byte[] rest = join(payload);
    byte[] head = {0, 4, 'M', 'Q', 'T', 'T', (byte) version, (byte) flags, 0, 0};
    return packet(0x10, version == V5 ? join(head, properties, rest) : join(head, rest));
  }

  /** A PUBLISH packet of version 3 with quality of service 1. */
  static byte[] publish(int packetId, String topic, byte[] payload) {
    return publish(0x32, packetId, utf8(topic), payload);
  }

  /**
   * A PUBLISH packet of version 3.
   *
   * @param first the first byte: type, duplicate, quality of service, retain; it must be 0x32 or
   *     another with a packet id
   */
  static byte[] publish(int first, int packetId, byte[] topic, byte[] payload) {
    return packet(first, join(counted(topic), number(packetId), payload));
  }

  /** A PUBLISH packet of version 5 with quality of service 1. */
  static byte[] publish5(int packetId, String topic, byte[] properties, byte[] payload) {
    return packet(0x32, join(text(topic), number(packetId), properties, payload));
  }

  /** A SUBSCRIBE packet of version 3 with quality of service 1. */
  static byte[] subscribe(int packetId, String filter) {
    return packet(0x82, join(number(packetId), text(filter), new byte[] {1}));
  }

  static byte[] packet(int first, byte[] body) {
    return join(new byte[] {(byte) first}, length(body.length), body);
  }

  /** A variable byte integer, section 1.5.5 of version 5. */
  static byte[] length(int length) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    int rest = length;
    while (rest >= 0x80) {
      bytes.write((rest & 0x7F) | 0x80);
      rest >>= 7;
    }
    bytes.write(rest);
    return bytes.toByteArray();
  }

  static byte[] number(int twoBytes) {
    return new byte[] {(byte) (twoBytes >> 8), (byte) twoBytes};
  }

  /** A string with its length in front. */
  static byte[] text(String text) {
    return counted(utf8(text));
  }

  static byte[] counted(byte[] bytes) {
    return join(number(bytes.length), bytes);
  }

  static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  static byte[] join(byte[]... parts) {
    try {
      ByteArrayOutputStream all = new ByteArrayOutputStream();
      for (byte[] part : parts) {
        all.write(part);
      }
      return all.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
