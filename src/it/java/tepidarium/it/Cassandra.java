package tepidarium.it;

import static org.awaitility.Awaitility.await;

import com.datastax.oss.driver.api.core.CqlSession;
import com.datastax.oss.driver.api.core.config.DefaultDriverOption;
import com.datastax.oss.driver.api.core.config.DriverConfigLoader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.series.cassandra.CassandraAddress;

/**
 * Real Cassandra nodes from Maven's libraries, on the addresses from 127.0.0.1 on and free ports.
 * They use little memory.
 */
public final class Cassandra implements AutoCloseable {
  /** The administrator that every new cluster has. */
  public static final String USER = "cassandra";

  public static final String PASSWORD = "cassandra";

  private static final Path CLASS_PATH = Path.of("target/cassandra.classpath");
  private static final Duration SOON = Duration.ofMinutes(2);

  /** Packages of Java that the server reaches into, from its own start script. */
  private static final List<String> OPEN =
      List.of(
          "java.base/java.io",
          "java.base/java.lang",
          "java.base/java.lang.module",
          "java.base/java.lang.reflect",
          "java.base/java.math",
          "java.base/java.net",
          "java.base/java.nio",
          "java.base/java.util",
          "java.base/java.util.concurrent",
          "java.base/java.util.concurrent.atomic",
          "java.base/jdk.internal.loader",
          "java.base/jdk.internal.math",
          "java.base/jdk.internal.module",
          "java.base/jdk.internal.ref",
          "java.base/jdk.internal.reflect",
          "java.base/jdk.internal.util.jar",
          "java.base/sun.nio.ch",
          "jdk.management/com.sun.management.internal");

  private static final List<String> EXPORTED =
      List.of(
          "java.base/java.lang.ref",
          "java.base/jdk.internal.misc",
          "java.base/jdk.internal.ref",
          "java.base/sun.nio.ch",
          "java.management.rmi/com.sun.jmx.remote.internal.rmi",
          "java.rmi/sun.rmi.registry",
          "java.rmi/sun.rmi.server",
          "java.sql/java.sql");

  private static final List<String> SMALL =
      List.of(
          "-Xms256m",
          "-Xmx256m",
          "-XX:MaxDirectMemorySize=256m",
          "-XX:TieredStopAtLevel=1",
          "-XX:+UnlockDiagnosticVMOptions",
          "-XX:-BytecodeVerificationRemote");

  private static final List<String> LARGE =
      List.of("-Xms1g", "-Xmx1g", "-XX:MaxDirectMemorySize=512m");

  private final List<String> memory;
  private final @Nullable SeparateNetwork network;
  private final Path folder;
  private final int port = Ports.free();
  private final int storagePort = Ports.free();
  private final List<ServerProcess> nodes = new ArrayList<>();

  private Cassandra(List<String> syncs, List<String> memory, @Nullable SeparateNetwork network) {
    this.memory = memory;
    this.network = network;
    try {
      folder = Files.createTempDirectory("cassandra");
      for (int node = 1; node <= syncs.size(); node++) {
        configure(node, syncs);
        nodes.add(
            new ServerProcess(
                command(node, syncs.size()), folder.resolve("node-" + node + ".out")));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * One node that asks for a login, takes connections with and without TLS, and confirms changes
   * only once they are on its disk.
   */
  public static Cassandra started() {
    return started(List.of("batch"));
  }

  /**
   * A cluster. Several nodes ask for no login, because only one of them would know the roles.
   *
   * @param syncs {@code commitlog_sync} of each node; they start one after the other
   */
  public static Cassandra started(List<String> syncs) {
    return started(syncs, SMALL, null);
  }

  /** The same; the second node is in another network. */
  public static Cassandra started(List<String> syncs, SeparateNetwork network) {
    return started(syncs, SMALL, network);
  }

  /** One node with the memory and the compiler of a server, for measurements. */
  public static Cassandra large() {
    return started(List.of("batch"), LARGE, null);
  }

  private static Cassandra started(
      List<String> syncs, List<String> memory, @Nullable SeparateNetwork network) {
    Cassandra cassandra = new Cassandra(syncs, memory, network);
    IntStream.rangeClosed(1, syncs.size()).forEach(cassandra::start);
    return cassandra;
  }

  private void configure(int node, List<String> syncs) throws IOException {
    Path home = home(node);
    Files.createDirectories(home);
    String host = host(node);
    String sync = syncs.get(node - 1);
    boolean login = syncs.size() == 1;
    List<String> lines =
        new ArrayList<>(
            List.of(
                "cluster_name: test",
                "num_tokens: 1",
                "partitioner: org.apache.cassandra.dht.Murmur3Partitioner",
                "authenticator: " + (login ? "PasswordAuthenticator" : "AllowAllAuthenticator"),
                "authorizer: " + (login ? "CassandraAuthorizer" : "AllowAllAuthorizer"),
                "role_manager: CassandraRoleManager",
                "endpoint_snitch: SimpleSnitch",
                "listen_address: " + host,
                "rpc_address: " + host,
                "native_transport_port: " + port,
                "storage_port: " + storagePort,
                "ssl_storage_port: " + Ports.free(),
                "seed_provider:",
                "  - class_name: org.apache.cassandra.locator.SimpleSeedProvider",
                "    parameters:",
                "      - seeds: \"" + host(1) + '"',
                "data_file_directories: [" + home.resolve("data") + ']',
                "commitlog_directory: " + home.resolve("commitlog"),
                "saved_caches_directory: " + home.resolve("caches"),
                "hints_directory: " + home.resolve("hints"),
                "cdc_raw_directory: " + home.resolve("cdc"),
                "commitlog_segment_size: 8MiB",
                "commitlog_sync: " + sync,
                "disk_failure_policy: die",
                "commit_failure_policy: die",
                "concurrent_reads: 4",
                "concurrent_writes: 4",
                "memtable_heap_space: " + (memory.equals(SMALL) ? "32MiB" : "128MiB"),
                "memtable_offheap_space: " + (memory.equals(SMALL) ? "32MiB" : "128MiB"),
                "file_cache_size: " + (memory.equals(SMALL) ? "16MiB" : "64MiB"),
                "networking_cache_size: 16MiB",
                // For a busy machine.
                "read_request_timeout: 10s",
                "range_request_timeout: 10s",
                "write_request_timeout: 10s",
                "truncate_request_timeout: 60s",
                "auto_snapshot: false"));
    if (login) {
      Certificates.write(home, "node");
      Certificates.writeStore(home, PASSWORD);
      lines.addAll(
          List.of(
              "client_encryption_options:",
              "  enabled: true",
              "  optional: true",
              "  keystore: " + home.resolve("keys.p12"),
              "  keystore_password: " + PASSWORD,
              "  store_type: PKCS12"));
    }
    if (sync.equals("periodic")) {
      lines.add("commitlog_sync_period: 10s");
    }
    Files.write(home.resolve("cassandra.yaml"), lines);
    Files.writeString(
        home.resolve("logback.xml"),
        "<configuration><appender name=\"out\" class=\"ch.qos.logback.core.ConsoleAppender\">"
            + "<encoder><pattern>%d %-5level %msg%n</pattern></encoder></appender>"
            + "<root level=\"INFO\"><appender-ref ref=\"out\"/></root></configuration>");
  }

  private List<String> command(int node, int count) throws IOException {
    if (!Files.exists(CLASS_PATH)) {
      throw new AssertionError(
          CLASS_PATH + " is missing; run: mvn antrun:run@cassandra-for-integration-tests");
    }
    Path home = home(node);
    List<String> command = new ArrayList<>();
    if (network != null && node == Cable.INSIDE) {
      command.addAll(network.prefix());
    }
    command.addAll(
        List.of(java17(), "-Xss512k", "-XX:+UseSerialGC", "-Djdk.attach.allowAttachSelf=true"));
    command.addAll(memory);
    OPEN.forEach(one -> command.addAll(List.of("--add-opens", one + "=ALL-UNNAMED")));
    EXPORTED.forEach(one -> command.addAll(List.of("--add-exports", one + "=ALL-UNNAMED")));
    Map.of(
            "cassandra.config",
            home.resolve("cassandra.yaml").toUri().toString(),
            "cassandra.storagedir",
            home.toString(),
            "cassandra.logdir",
            home.toString(),
            "logback.configurationFile",
            home.resolve("logback.xml").toString(),
            "cassandra.ring_delay_ms",
            count == 1 ? "0" : "5000",
            "cassandra.skip_wait_for_gossip_to_settle",
            "0",
            "cassandra.superuser_setup_delay_ms",
            "0",
            "cassandra-foreground",
            "yes",
            "jna.tmpdir",
            home.toString(),
            "java.io.tmpdir",
            home.toString())
        .forEach((name, value) -> command.add("-D" + name + '=' + value));
    command.addAll(
        List.of(
            "-cp",
            Files.readString(CLASS_PATH, StandardCharsets.UTF_8).strip(),
            "org.apache.cassandra.service.CassandraDaemon"));
    return command;
  }

  /** The server needs Java 17, whatever the tests run with. */
  private static String java17() throws IOException {
    if (Runtime.version().feature() == 17) {
      return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }
    try (Stream<Path> all = Files.list(Path.of("/usr/lib/jvm"))) {
      return all.map(one -> one.resolve("bin/java"))
          .filter(one -> one.toString().contains("17") && Files.isExecutable(one))
          .findFirst()
          .orElseThrow(() -> new AssertionError("no Java 17 in /usr/lib/jvm for Cassandra"))
          .toString();
    }
  }

  private Path home(int node) {
    return folder.resolve("node-" + node);
  }

  private String host(int node) {
    return network == null ? "127.0.0." + node : network.cable().host(node);
  }

  /** Starts a node, and waits until it answers. */
  public void start(int node) {
    nodes.get(node - 1).start(() -> Ports.answers(host(node), port));
  }

  /** Stops a node in order; it writes what it has in memory to its files. */
  public void stop(int node) {
    nodes.get(node - 1).stop();
  }

  /** The size of a table's files on a node, bytes. */
  public long size(int node, String keyspace, String table) {
    try (Stream<Path> all = Files.walk(home(node).resolve("data").resolve(keyspace))) {
      return all.filter(Files::isRegularFile)
          .filter(one -> one.getParent().getFileName().toString().startsWith(table + '-'))
          .mapToLong(one -> one.toFile().length())
          .sum();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Kills a node, as a power cut would. */
  public void kill(int node) {
    nodes.get(node - 1).kill();
  }

  /** Stops a node where it is; nobody learns of it. */
  public void freeze(int node) {
    nodes.get(node - 1).signal("STOP");
  }

  /** Lets it go on. */
  public void thaw(int node) {
    nodes.get(node - 1).signal("CONT");
  }

  public String url(String keyspace) {
    List<String> hosts =
        IntStream.rangeClosed(1, nodes.size()).mapToObj(one -> host(one) + ':' + port).toList();
    return "cassandra://" + String.join(",", hosts) + '/' + keyspace;
  }

  /** The authority that signed the certificate of a single node. */
  public Path authority() {
    return home(1).resolve("chain.pem");
  }

  public CassandraAddress address(String keyspace) {
    return CassandraAddress.of(url(keyspace), USER, PASSWORD);
  }

  /** The settings of a service with its readings there. */
  public static Map<String, String> settings(String url) {
    return Map.of("readingsUrl", url, "readingsUser", USER, "readingsPassword", PASSWORD);
  }

  /** A session of the administrator, who comes into being shortly after the first start. */
  public CqlSession administrator() {
    DriverConfigLoader patient =
        DriverConfigLoader.programmaticBuilder()
            .withDuration(DefaultDriverOption.REQUEST_TIMEOUT, Duration.ofSeconds(30))
            .withBoolean(DefaultDriverOption.CONNECTION_WARN_INIT_ERROR, false)
            .withBoolean(DefaultDriverOption.METADATA_SCHEMA_ENABLED, false)
            .withInt(DefaultDriverOption.NETTY_IO_SHUTDOWN_QUIET_PERIOD, 0)
            .withInt(DefaultDriverOption.NETTY_ADMIN_SHUTDOWN_QUIET_PERIOD, 0)
            .withDuration(DefaultDriverOption.CONTROL_CONNECTION_TIMEOUT, Duration.ofSeconds(30))
            .build();
    return await()
        .atMost(SOON)
        .ignoreExceptions()
        .until(
            () ->
                CqlSession.builder()
                    .withConfigLoader(patient)
                    .addContactPoint(new InetSocketAddress(host(1), port))
                    .withLocalDatacenter("datacenter1")
                    .withAuthCredentials(USER, PASSWORD)
                    .build(),
            session -> true);
  }

  @Override
  public void close() {
    nodes.forEach(ServerProcess::kill);
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
