package tepidarium.ingest.mqtt;

import io.netty.buffer.ByteBuf;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Limits the packets of one MQTT connection. Closes it when a packet is too large, when it takes
 * too long to arrive, or when the memory for unfinished packets is used up. Stops reading for a
 * while when the client sends too fast; the network then slows the client down. Runs before the
 * MQTT decoder, which buffers packets of up to 256 MB. Reads only the fixed header of each packet
 * (MQTT 5.0, section 2.1). Used by the connection's network thread.
 */
final class PacketLimit extends ChannelInboundHandlerAdapter {
  private static final int MAX_LENGTH_BITS = 28;
  private static final int MEGABYTE = 1 << 20;

  /** The first and the last type of an acknowledgement, MQTT 5.0, section 2.1.2. */
  private static final int PUBACK = 4;

  private static final int PUBCOMP = 7;

  /**
   * Bytes that are passed on at once. The network may deliver a thousand small messages at once,
   * which would delay those of other clients.
   */
  private static final int PART_BYTES = 4 << 10;

  private final PacketMemory memory;
  private final ClientRates rates;
  private final long timeoutSeconds;

  private boolean typeRead;
  private int lengthBits;
  private long length;
  private long missing;
  private long held;
  private long packets;
  private boolean checkScheduled;
  private boolean unreadable;

  /** Messages so far. Acknowledgements do not count. */
  private long messages;

  private @Nullable ClientRate rate;
  private String client = "a client before its login";
  private boolean paused;
  private long pauses;

  /** Bytes that have arrived and are not passed on yet; empty unless the client is slowed. */
  private final Deque<ByteBuf> waiting = new ArrayDeque<>();

  /**
   * Creates the limit of one connection.
   *
   * @param timeoutSeconds time within which a packet must arrive, in seconds; a connection may be
   *     closed up to the same time later
   */
  PacketLimit(PacketMemory memory, ClientRates rates, long timeoutSeconds) {
    this.memory = memory;
    this.rates = rates;
    this.rate = rates.forConnection();
    this.timeoutSeconds = timeoutSeconds;
  }

  /**
   * Names the client and applies the limit of its account, once it has logged in. Called by the
   * network thread of the connection.
   *
   * @param words the client as the log and health name it
   * @param account its account, whose connections share one limit; null for none
   */
  void loggedIn(String words, @Nullable String account) {
    client = words;
    if (account != null) {
      rate = rates.forAccount(account);
    }
  }

  /** Ends the limit of the rate, for the service itself. */
  void unlimited() {
    rate = null;
  }

  @Override
  public void channelRead(ChannelHandlerContext context, Object message) throws Exception {
    if (message instanceof ByteBuf bytes) {
      waiting.add(bytes);
      passOn(context);
    } else {
      super.channelRead(context, message);
    }
  }

  /** Passes on what has arrived, until the client must be slowed. */
  private void passOn(ChannelHandlerContext context) {
    while (!paused && !waiting.isEmpty()) {
      ByteBuf first = waiting.element();
      boolean whole = rate == null || first.readableBytes() <= PART_BYTES;
      passOn(context, whole ? waiting.remove() : first.readRetainedSlice(PART_BYTES));
    }
  }

  private void passOn(ChannelHandlerContext context, ByteBuf bytes) {
    if (unreadable) {
      context.fireChannelRead(bytes);
      return;
    }
    long before = messages;
    int size = bytes.readableBytes();
    String problem = read(bytes);
    if (problem == null) {
      scheduleCheck(context);
      context.fireChannelRead(bytes);
      pace(context, messages - before, size);
    } else {
      bytes.release();
      close(context, problem);
    }
  }

  /** Stops reading if the client has sent too much. */
  private void pace(ChannelHandlerContext context, long newMessages, int newBytes) {
    ClientRate limit = rate;
    long wait = limit == null ? 0 : limit.take(newMessages, newBytes);
    if (wait > 0 && !paused) {
      paused = true;
      pauses++;
      context.channel().config().setAutoRead(false);
      rates.slowed(client);
      scheduleReading(context, wait);
    }
  }

  private void scheduleReading(ChannelHandlerContext context, long waitNanos) {
    var unused =
        context
            .executor()
            .schedule(
                () -> {
                  ClientRate limit = rate;
                  long wait = limit == null ? 0 : limit.take(0, 0);
                  if (wait > 0) {
                    scheduleReading(context, wait);
                  } else {
                    resume(context);
                  }
                },
                waitNanos,
                TimeUnit.NANOSECONDS);
  }

  private void resume(ChannelHandlerContext context) {
    paused = false;
    passOn(context);
    context.fireChannelReadComplete();
    if (!paused) {
      context.channel().config().setAutoRead(true);
    }
  }

  private @Nullable String read(ByteBuf bytes) {
    int at = bytes.readerIndex();
    while (at < bytes.writerIndex() && !unreadable) {
      if (missing > 0) {
        long read = Math.min(missing, bytes.writerIndex() - at);
        missing -= read;
        at += (int) read;
      } else {
        readHeader(bytes.getByte(at));
        at++;
      }
      if (!unreadable && !memory.accepts(length)) {
        return "a packet of " + megabytes(length) + " is larger than the service accepts";
      }
    }
    long unfinished = missing > 0 ? length - missing : 0;
    boolean fits = memory.reserve(unfinished - held, unfinished);
    held = unfinished;
    return fits ? null : "too many large packets arrive at the same time; send them again later";
  }

  /**
   * Reads one byte of the fixed header: the packet type, or seven bits of the length, lowest first.
   */
  private void readHeader(byte next) {
    if (!typeRead) {
      typeRead = true;
      lengthBits = 0;
      length = 0;
      packets++;
      int type = (next & 0xFF) >> 4;
      messages += type < PUBACK || type > PUBCOMP ? 1 : 0;
      return;
    }
    length |= (long) (next & 0x7F) << lengthBits;
    lengthBits += 7;
    if (next >= 0) {
      typeRead = false;
      missing = length;
    } else if (lengthBits >= MAX_LENGTH_BITS) {
      // The decoder detects the same error and closes the connection.
      unreadable = true;
    }
  }

  /**
   * Schedules a check that the packet has arrived in time. At most one check is scheduled at a
   * time, because most packets are completed by the next bytes.
   */
  private void scheduleCheck(ChannelHandlerContext context) {
    if (checkScheduled || !isPartial()) {
      return;
    }
    checkScheduled = true;
    long packet = packets;
    long pausesBefore = pauses;
    var unused =
        context
            .executor()
            .schedule(
                () -> {
                  checkScheduled = false;
                  if (isPartial()
                      && packets == packet
                      && !paused
                      && pauses == pausesBefore
                      && context.channel().isActive()) {
                    close(
                        context,
                        "a packet did not arrive completely within " + timeoutSeconds + " s");
                  } else {
                    scheduleCheck(context);
                  }
                },
                timeoutSeconds,
                TimeUnit.SECONDS);
  }

  private boolean isPartial() {
    return typeRead || missing > 0;
  }

  private void close(ChannelHandlerContext context, String reason) {
    unreadable = true;
    release();
    memory.reportClosed(reason + " (from " + context.channel().remoteAddress() + ')');
    var unused = context.close();
  }

  @Override
  public void channelInactive(ChannelHandlerContext context) throws Exception {
    release();
    super.channelInactive(context);
  }

  private void release() {
    waiting.forEach(ByteBuf::release);
    waiting.clear();
    memory.reserve(-held, 0);
    held = 0;
    missing = 0;
    typeRead = false;
  }

  private static String megabytes(long bytes) {
    return String.format(Locale.ROOT, "%.1f MB", (double) bytes / MEGABYTE);
  }
}
