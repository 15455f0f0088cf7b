package tepidarium.ingest.mqtt;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.function.Function;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;

/**
 * Filters the MQTT 5 packets that the client reads from a broker. Replaces each PUBLISH packet that
 * would stop the client, or that must be skipped, with an empty message that has the same packet
 * id. The client delivers and acknowledges the replacement in its place; {@link #nextRefusal}
 * returns the reason. Removes the properties of messages: they are not used and may contain
 * forbidden characters.
 *
 * <p>One thread reads; any thread may call the other methods. Packet format: OASIS MQTT 5.0,
 * sections 2.1 and 3.3.
 */
final class PublishFilter extends InputStream {
  /** The topic of a replacement; brokers do not allow clients to publish to it. */
  static final String REPLACED = "$replaced";

  /** Why a message was replaced. */
  record Refusal(Publish message, String reason) {}

  /**
   * A received PUBLISH packet.
   *
   * @param beginning first bytes of the payload, enough for an excerpt
   * @param fingerprint CRC-32 of topic and payload; the same for each redelivery
   * @param redelivered whether the broker marked it as delivered before (DUP flag)
   */
  // No other code changes the array, and these records are not compared.
  @SuppressWarnings("ArrayRecordComponent")
  record Publish(String topic, byte[] beginning, long fingerprint, boolean redelivered) {}

  private static final int PUBLISH = 3;
  private static final int DUP = 0x08;
  private static final int BEGINNING_BYTES = 1_000;

  /** Maximum size of topic, packet id and properties; each has at most 64 KiB in practice. */
  private static final int MAX_HEADER_BYTES = 256 << 10;

  private static final byte[] NOTHING = {};

  private final InputStream in;
  private final int maxPayloadBytes;
  private final Function<Publish, @Nullable String> skipped;
  private final byte[] chunk = new byte[8_192];
  private int chunkStart;
  private int chunkEnd;

  private final byte[] header = new byte[5];
  private int headerBytes;
  private byte @Nullable [] packet;
  private int packetBytes;
  private int dropBytes;
  private int cutBytes;

  private byte[] ready = NOTHING;
  private int readyStart;
  private @Nullable Publish readyMessage;

  private final Deque<Publish> undelivered = new ArrayDeque<>();
  private final Deque<Refusal> refusals = new ArrayDeque<>();
  private volatile @Nullable Thread reader;

  /**
   * Creates a filter for one connection.
   *
   * @param maxPayloadBytes longest payload, in bytes; a message with a longer one is replaced and
   *     not kept in memory
   * @param skipped returns why a message must be skipped, or null; called by the reading thread
   */
  PublishFilter(InputStream in, int maxPayloadBytes, Function<Publish, @Nullable String> skipped) {
    this.in = in;
    this.maxPayloadBytes = maxPayloadBytes;
    this.skipped = skipped;
  }

  /** Whether the thread that last called read has ended. */
  boolean isReaderDead() {
    Thread last = reader;
    return last != null && !last.isAlive();
  }

  /** Removes and returns the oldest read message, which the client has now delivered. */
  @Nullable Publish delivered() {
    synchronized (undelivered) {
      return undelivered.poll();
    }
  }

  /** The newest message that the client has read and not delivered; null for none. */
  @Nullable Publish undelivered() {
    synchronized (undelivered) {
      return undelivered.peekLast();
    }
  }

  /** Removes and returns the reason of the next replacement, in the order of delivery. */
  Refusal nextRefusal() {
    synchronized (undelivered) {
      return refusals.remove();
    }
  }

  /** Whether there are bytes that the client has not read. */
  boolean hasUnread() {
    try {
      return available() > 0;
    } catch (IOException e) {
      return false;
    }
  }

  @Override
  public int available() throws IOException {
    return ready.length - readyStart + chunkEnd - chunkStart + in.available();
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  @Override
  public int read(byte[] into, int offset, int length) throws IOException {
    reader = Thread.currentThread();
    if (length == 0) {
      return 0;
    }
    if (readyStart == ready.length && !readPacket()) {
      return -1;
    }
    int count = Math.min(length, ready.length - readyStart);
    System.arraycopy(ready, readyStart, into, offset, count);
    readyStart += count;
    if (readyStart == ready.length) {
      ready = NOTHING;
      readyStart = 0;
      handOver();
    }
    return count;
  }

  private void handOver() {
    Publish message = readyMessage;
    readyMessage = null;
    if (message != null) {
      synchronized (undelivered) {
        undelivered.add(message);
      }
    }
  }

  /**
   * Reads one packet. After a socket timeout, the next call continues at the same position.
   *
   * @return false at the end of the stream
   */
  private boolean readPacket() throws IOException {
    while (packet == null) {
      if (chunkStart == chunkEnd && !fillChunk()) {
        return false;
      }
      header[headerBytes++] = chunk[chunkStart++];
      if (headerBytes > 1 && header[headerBytes - 1] >= 0) {
        startPacket();
      } else if (headerBytes == header.length) {
        throw new IOException("the broker sent a packet without a length");
      }
    }
    byte[] filling = packet;
    while (packetBytes < filling.length) {
      packetBytes += readSome(filling, packetBytes, filling.length - packetBytes);
    }
    byte[] waste = new byte[Math.min(dropBytes, 1 << 16)];
    while (dropBytes > 0) {
      dropBytes -= readSome(waste, 0, Math.min(waste.length, dropBytes));
    }
    ready = isPublish() ? checked(filling) : filling;
    packet = null;
    headerBytes = 0;
    return true;
  }

  private boolean isPublish() {
    return (header[0] & 0xFF) >> 4 == PUBLISH;
  }

  private void startPacket() {
    int length = 0;
    for (int i = 1; i < headerBytes; i++) {
      length |= (header[i] & 0x7F) << (7 * (i - 1));
    }
    boolean tooLong = isPublish() && length > maxPayloadBytes + MAX_HEADER_BYTES;
    int kept = tooLong ? MAX_HEADER_BYTES : length;
    packet = Arrays.copyOf(header, headerBytes + kept);
    packetBytes = headerBytes;
    dropBytes = length - kept;
    cutBytes = dropBytes;
  }

  private int readSome(byte[] into, int offset, int length) throws IOException {
    if (chunkStart == chunkEnd) {
      if (length >= chunk.length) {
        int count = in.read(into, offset, length);
        if (count < 0) {
          throw new EOFException();
        }
        return count;
      }
      if (!fillChunk()) {
        throw new EOFException();
      }
    }
    int count = Math.min(length, chunkEnd - chunkStart);
    System.arraycopy(chunk, chunkStart, into, offset, count);
    chunkStart += count;
    return count;
  }

  private boolean fillChunk() throws IOException {
    int count = in.read(chunk, 0, chunk.length);
    chunkStart = 0;
    chunkEnd = Math.max(0, count);
    return count >= 0;
  }

  /** Returns the packet, or its replacement. */
  private byte[] checked(byte[] whole) throws IOException {
    int topicAt = headerBytes + 2;
    int topicEnd = whole.length < topicAt ? whole.length + 1 : topicAt + unsigned(whole, topicAt);
    int idEnd = topicEnd + ((header[0] & 0x06) == 0 ? 0 : 2);
    if (idEnd > whole.length) {
      throw new IOException("the broker sent a message without a topic or an id");
    }
    String topic = new String(whole, topicAt, topicEnd - topicAt, StandardCharsets.UTF_8);
    int payloadAt = payloadStart(whole, idEnd);
    String broken = payloadAt > whole.length ? "the broker sent invalid MQTT properties" : null;
    int payloadStart = Math.min(payloadAt, whole.length);
    Publish message =
        new Publish(
            topic,
            Arrays.copyOfRange(
                whole, payloadStart, Math.min(whole.length, payloadStart + BEGINNING_BYTES)),
            fingerprint(topic, whole, payloadStart),
            (header[0] & DUP) != 0);
    readyMessage = message;
    String reason =
        broken == null ? whyReplaced(message, whole.length - payloadStart + cutBytes) : broken;
    byte[] id = Arrays.copyOfRange(whole, topicEnd, idEnd);
    if (reason != null) {
      synchronized (undelivered) {
        refusals.add(new Refusal(message, reason));
      }
      return publish(header[0], REPLACED.getBytes(StandardCharsets.UTF_8), id, NOTHING);
    }
    return payloadStart == idEnd + 1
        ? whole
        : publish(
            header[0],
            Arrays.copyOfRange(whole, topicAt, topicEnd),
            id,
            Arrays.copyOfRange(whole, payloadStart, whole.length));
  }

  private @Nullable String whyReplaced(Publish message, int payloadBytes) {
    if (payloadBytes > maxPayloadBytes) {
      return "payload of "
          + payloadBytes
          + " bytes is over the limit of "
          + maxPayloadBytes
          + ": send a backlog in several messages";
    }
    String problem = TopicNames.problem(message.topic());
    return problem == null ? skipped.apply(message) : problem;
  }

  /**
   * Index of the first payload byte; beyond the end of the packet if the properties are invalid.
   */
  private static int payloadStart(byte[] whole, int propertiesAt) {
    int length = 0;
    for (int i = 0; i < 4 && propertiesAt + i < whole.length; i++) {
      byte next = whole[propertiesAt + i];
      length |= (next & 0x7F) << (7 * i);
      if (next >= 0) {
        return propertiesAt + i + 1 + length;
      }
    }
    return Integer.MAX_VALUE;
  }

  private static long fingerprint(String topic, byte[] whole, int payloadStart) {
    CRC32 sum = new CRC32();
    sum.update(topic.getBytes(StandardCharsets.UTF_8));
    sum.update(0);
    sum.update(whole, payloadStart, whole.length - payloadStart);
    return sum.getValue();
  }

  private static byte[] publish(byte first, byte[] topic, byte[] id, byte[] payload) {
    int length = 2 + topic.length + id.length + 1 + payload.length;
    ByteArrayOutputStream packet = new ByteArrayOutputStream(length + 5);
    packet.write(first);
    int left = length;
    while (left >= 0x80) {
      packet.write((left & 0x7F) | 0x80);
      left >>= 7;
    }
    packet.write(left);
    packet.write(topic.length >> 8);
    packet.write(topic.length);
    packet.writeBytes(topic);
    packet.writeBytes(id);
    packet.write(0);
    packet.writeBytes(payload);
    return packet.toByteArray();
  }

  /** The 16-bit number before the index. */
  private static int unsigned(byte[] bytes, int end) {
    return ((bytes[end - 2] & 0xFF) << 8) | (bytes[end - 1] & 0xFF);
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
