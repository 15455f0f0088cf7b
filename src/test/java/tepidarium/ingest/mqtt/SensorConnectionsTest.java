package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.netty.channel.Channel;
import io.netty.channel.embedded.EmbeddedChannel;
import java.net.InetSocketAddress;
import java.net.SocketAddress;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Who has to go when there are too many connections: four from one address, six in all. */
class SensorConnectionsTest {
  private final SensorConnections connections =
      new SensorConnections(
          new BrokerLimits(
              1, 6, 4, 1, Duration.ZERO, 1, 1, 1, Duration.ZERO, 1, 1, 1, topic -> null),
          () -> 0);

  /** The listening socket, which passes on what it has accepted. */
  private final EmbeddedChannel listening = new EmbeddedChannel(connections);

  private static final class Connection extends EmbeddedChannel {
    private final String address;

    Connection(String address) {
      this.address = address;
    }

    @Override
    protected SocketAddress remoteAddress0() {
      return new InetSocketAddress(address, 40_000);
    }
  }

  private Channel open(String address) {
    Connection connection = new Connection(address);
    listening.writeInbound(connection);
    assertEquals(connection.isOpen(), listening.readInbound() != null);
    return connection;
  }

  private List<Channel> open(String address, int number) {
    List<Channel> opened = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      opened.add(open(address));
    }
    return opened;
  }

  private static List<Boolean> isOpen(List<Channel> channels) {
    return channels.stream().map(Channel::isOpen).toList();
  }

  @Test
  void theOneThatHasWaitedLongestWithoutALoginGoes() {
    List<Channel> flood = open("192.0.2.1", 4);
    connections.loggedIn(flood.get(0));
    assertTrue(open("192.0.2.1").isOpen());
    assertEquals(List.of(true, false, true, true), isOpen(flood));
    assertEquals(
        "4 of at most 6 connections to the sensors' port; 1 closed within the last hour: more than 4"
            + " connections to the sensors' port from 192.0.2.1",
        connections.summary());
  }

  @Test
  void aNewOneGoesIfAllOfItsAddressHaveLoggedIn() {
    open("192.0.2.1", 4).forEach(connections::loggedIn);
    assertFalse(open("192.0.2.1").isOpen());
    assertTrue(open("192.0.2.2").isOpen());
  }

  @Test
  void whatIsFullInAllMakesRoomWhereMostWait() {
    List<Channel> few = open("192.0.2.1", 2);
    List<Channel> many = open("192.0.2.2", 4);
    assertTrue(open("192.0.2.3").isOpen());
    assertEquals(List.of(true, true), isOpen(few));
    assertEquals(List.of(false, true, true, true), isOpen(many));
  }

  @Test
  void aClosedConnectionMakesRoom() {
    List<Channel> all = open("192.0.2.1", 4);
    all.forEach(connections::loggedIn);
    all.get(2).close();
    assertTrue(open("192.0.2.1").isOpen());
    all.forEach(Channel::close);
    assertEquals("1 of at most 6 connections to the sensors' port", connections.summary());
  }
}
