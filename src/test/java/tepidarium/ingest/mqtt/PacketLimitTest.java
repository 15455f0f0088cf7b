package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.netty.buffer.ByteBuf;
import io.netty.buffer.Unpooled;
import io.netty.channel.embedded.EmbeddedChannel;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class PacketLimitTest {
  private static final int MAX_BYTES = 8 << 20;
  private static final byte PUBLISH = 0x32;

  private final List<String> told = new ArrayList<>();
  private final PacketMemory memory = new PacketMemory(MAX_BYTES, 2 * MAX_BYTES, told::add);

  private EmbeddedChannel connection() {
    return new EmbeddedChannel(new PacketLimit(memory, 60));
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
}
