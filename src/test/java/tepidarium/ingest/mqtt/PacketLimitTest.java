package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.Unpooled;
import io.netty.channel.embedded.EmbeddedChannel;
import java.io.ByteArrayOutputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class PacketLimitTest {
  private static final int MAX_BYTES = 8 << 20;
  private static final byte PUBLISH = 0x32;

  private final AtomicLong nanos = new AtomicLong();
  private ClientRates rates;
  private final List<String> told = new ArrayList<>();
  private final PacketMemory memory = new PacketMemory(MAX_BYTES, 2 * MAX_BYTES, told::add);

  private EmbeddedChannel connection() {
    return connection(Integer.MAX_VALUE, Long.MAX_VALUE);
  }

  private EmbeddedChannel connection(int messagesPerSecond, long bytesPerSecond) {
    return new EmbeddedChannel(
        new PacketLimit(memory, rates(messagesPerSecond, bytesPerSecond), 60));
  }

  private ClientRates rates(int messagesPerSecond, long bytesPerSecond) {
    rates =
        new ClientRates(
            BrokerLimits.of(1 << 20, 10, Duration.ofDays(1), 1L << 20, topic -> null)
                .withClientRate(messagesPerSecond, bytesPerSecond),
            nanos::get);
    return rates;
  }

  /** A fixed header, MQTT 5.0 sections 2.1.1 and 1.5.5: the lowest seven bits come first. */
  private static byte[] header(int length) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.write(PUBLISH);
    int rest = length;
    do {
      bytes.write(rest > 127 ? rest & 0x7F | 0x80 : rest);
      rest >>= 7;
    } while (rest > 0);
    return bytes.toByteArray();
  }

  private static void arrive(EmbeddedChannel connection, byte[] bytes) {
    connection.writeInbound(Unpooled.wrappedBuffer(bytes));
  }

  private static byte[] passedOn(EmbeddedChannel connection) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (ByteBuf next = connection.readInbound(); next != null; next = connection.readInbound()) {
      byte[] bytes = new byte[next.readableBytes()];
      next.readBytes(bytes);
      all.writeBytes(bytes);
      next.release();
    }
    return all.toByteArray();
  }

  @Property(tries = 200)
  void everyByteIsPassedOnForAnyPacketBoundaries(
      @ForAll @Size(max = 8) List<@IntRange(max = 40_000) Integer> sizes,
      @ForAll @IntRange(min = 1, max = 5_000) int cut) {
    ByteArrayOutputStream sent = new ByteArrayOutputStream();
    for (int size : sizes) {
      sent.writeBytes(header(size));
      sent.writeBytes(new byte[size]);
    }
    byte[] all = sent.toByteArray();
    EmbeddedChannel connection = connection();
    for (int i = 0; i < all.length; i += cut) {
      byte[] part = new byte[Math.min(cut, all.length - i)];
      System.arraycopy(all, i, part, 0, part.length);
      arrive(connection, part);
    }
    assertTrue(connection.isOpen());
    assertArrayEquals(all, passedOn(connection));
    assertEquals(0, memory.held());
    connection.finishAndReleaseAll();
  }

  @Test
  void itClosesTheConnectionOfAPacketThatIsTooLarge() {
    EmbeddedChannel connection = connection();
    arrive(connection, header(MAX_BYTES));
    assertTrue(connection.isOpen());
    connection.finishAndReleaseAll();

    connection = connection();
    arrive(connection, header(MAX_BYTES + 1));
    assertFalse(connection.isOpen());
    assertEquals(0, passedOn(connection).length);
    assertTrue(told.get(0).startsWith("a packet of 8.0 MB is larger than the service accepts"));
  }

  @Test
  void theLimitAllowsTwoLargePacketsAndFurtherSmallOnes() {
    EmbeddedChannel first = connection();
    arrive(first, header(MAX_BYTES));
    arrive(first, new byte[MAX_BYTES - 1]);
    EmbeddedChannel second = connection();
    arrive(second, header(MAX_BYTES));
    arrive(second, new byte[MAX_BYTES - 1]);
    assertEquals(2L * (MAX_BYTES - 1), memory.held());
    assertTrue(first.isOpen() && second.isOpen());

    EmbeddedChannel small = connection();
    arrive(small, header(20_000));
    arrive(small, new byte[PacketMemory.SMALL_BYTES]);
    assertTrue(small.isOpen());
    arrive(small, new byte[1]);
    assertFalse(small.isOpen());
    assertTrue(told.get(0).startsWith("too many large packets arrive at the same time"));

    first.close();
    assertEquals(MAX_BYTES - 1, memory.held());
    second.close();
    assertEquals(0, memory.held());
    first.finishAndReleaseAll();
    second.finishAndReleaseAll();
  }

  @Test
  void itClosesTheConnectionOfAPacketThatDoesNotEnd() {
    EmbeddedChannel slow = connection();
    arrive(slow, header(100));
    slow.advanceTimeBy(59, TimeUnit.SECONDS);
    slow.runScheduledPendingTasks();
    assertTrue(slow.isOpen());
    slow.advanceTimeBy(1, TimeUnit.SECONDS);
    slow.runScheduledPendingTasks();
    assertFalse(slow.isOpen());
    assertTrue(told.get(0).startsWith("a packet did not arrive completely within 60 s"));
    slow.finishAndReleaseAll();

    EmbeddedChannel good = connection();
    arrive(good, header(100));
    good.advanceTimeBy(30, TimeUnit.SECONDS);
    arrive(good, new byte[100]);
    arrive(good, header(100));
    good.advanceTimeBy(31, TimeUnit.SECONDS);
    good.runScheduledPendingTasks();
    assertTrue(good.isOpen());
    good.finishAndReleaseAll();
  }

  @Test
  void anInvalidLengthIsLeftToTheDecoder() {
    EmbeddedChannel connection = connection();
    byte[] fiveBytes = {PUBLISH, -1, -1, -1, -1, 0x7F};
    arrive(connection, fiveBytes);
    assertArrayEquals(fiveBytes, passedOn(connection));
    connection.finishAndReleaseAll();
  }

  private void pass(EmbeddedChannel connection, Duration time) {
    nanos.addAndGet(time.toNanos());
    connection.advanceTimeBy(time.toNanos(), TimeUnit.NANOSECONDS);
    connection.runScheduledPendingTasks();
  }

  private static boolean isRead(EmbeddedChannel connection) {
    return connection.config().isAutoRead();
  }

  private static byte[] packets(int type, int count) {
    byte[] bytes = new byte[2 * count];
    for (int i = 0; i < count; i++) {
      bytes[2 * i] = (byte) (type << 4);
    }
    return bytes;
  }

  @Test
  void aClientThatSendsTooManyMessagesIsReadLater() {
    EmbeddedChannel connection = connection(100, Long.MAX_VALUE);
    arrive(connection, packets(3, 200));
    assertTrue(isRead(connection), "a burst of 2 s is free");
    assertEquals("no client slowed within the last hour", rates.summary());
    arrive(connection, packets(3, 50));
    assertFalse(isRead(connection));
    String words = rates.summary();
    assertTrue(words.contains("sends more than 100 messages"), words);
    pass(connection, Duration.ofMillis(400));
    assertFalse(isRead(connection));
    pass(connection, Duration.ofMillis(101));
    assertTrue(isRead(connection));
    assertEquals(500, passedOn(connection).length);
    connection.finishAndReleaseAll();
  }

  @Test
  void aClientThatSendsTooManyBytesIsReadLater() {
    EmbeddedChannel connection = connection(Integer.MAX_VALUE, 1_000);
    arrive(connection, header(2_498));
    arrive(connection, new byte[2_498]);
    assertFalse(isRead(connection));
    pass(connection, Duration.ofMillis(502));
    assertTrue(isRead(connection));
    connection.finishAndReleaseAll();
  }

  @Test
  void acknowledgementsAndTheServiceAreNotSlowed() {
    EmbeddedChannel connection = connection(100, Long.MAX_VALUE);
    arrive(connection, packets(4, 1_000));
    assertTrue(isRead(connection));
    connection.pipeline().get(PacketLimit.class).unlimited();
    arrive(connection, packets(3, 1_000));
    assertTrue(isRead(connection));
    connection.finishAndReleaseAll();
  }

  @Test
  void allConnectionsOfAnAccountShareOneLimit() {
    EmbeddedChannel first = connection(100, Long.MAX_VALUE);
    EmbeddedChannel second = new EmbeddedChannel(new PacketLimit(memory, rates, 60));
    first.pipeline().get(PacketLimit.class).loggedIn("the client \"a\"", "jar-1");
    second.pipeline().get(PacketLimit.class).loggedIn("the client \"b\"", "jar-1");
    arrive(first, packets(3, 150));
    assertTrue(isRead(first));
    arrive(second, packets(3, 100));
    assertFalse(isRead(second));
    assertTrue(rates.summary().startsWith("the client \"b\" sends more"), rates.summary());
    first.finishAndReleaseAll();
    second.finishAndReleaseAll();
  }

  @Test
  void aSlowedClientIsNotClosedBecauseItsPacketIsUnfinished() {
    EmbeddedChannel connection = connection(Integer.MAX_VALUE, 10);
    arrive(connection, header(10_000));
    arrive(connection, new byte[1_000]);
    pass(connection, Duration.ofSeconds(61));
    assertTrue(connection.isOpen());
    pass(connection, Duration.ofSeconds(40));
    assertTrue(isRead(connection));
    pass(connection, Duration.ofSeconds(121));
    assertFalse(connection.isOpen());
    connection.finishAndReleaseAll();
  }

  @Test
  void aSlowedClientIsPassedOnInSmallParts() {
    EmbeddedChannel connection = connection(100, Long.MAX_VALUE);
    arrive(connection, packets(3, 250));
    pass(connection, Duration.ofMillis(501));
    assertEquals(500, passedOn(connection).length);
    arrive(connection, packets(3, 5_000));
    assertEquals(4_096, passedOn(connection).length);
    pass(connection, Duration.ofSeconds(20));
    assertEquals(0, passedOn(connection).length);
    pass(connection, Duration.ofSeconds(1));
    assertEquals(4_096, passedOn(connection).length);
    pass(connection, Duration.ofSeconds(21));
    assertEquals(10_000 - 2 * 4_096, passedOn(connection).length);
    assertFalse(isRead(connection));
    pass(connection, Duration.ofSeconds(10));
    assertTrue(isRead(connection));
    connection.finishAndReleaseAll();
  }

  @Test
  void whatWaitsIsReleasedWithTheConnection() {
    EmbeddedChannel connection = connection(100, Long.MAX_VALUE);
    arrive(connection, packets(3, 250));
    ByteBuf waits = Unpooled.wrappedBuffer(packets(3, 5_000));
    connection.writeInbound(waits);
    assertEquals(1, waits.refCnt());
    connection.close();
    assertEquals(0, waits.refCnt());
    connection.finishAndReleaseAll();
  }
}
