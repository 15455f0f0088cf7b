package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Random;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.germination.Photo;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.records.Database;
import tepidarium.records.GerminationRecords;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.series.StoreException;

/** Records in a PostgreSQL server whose disk is full for a while. */
class PostgresFullDiskIT {
  private static final String DATABASE = "garden";
  private static final int DISK_MEGABYTES = 24;
  private static final int PHOTO_BYTES = 1 << 20;
  private static final int MOST_PHOTOS = 40;

  /** How the disk of the server becomes full and free again. */
  private interface Disk extends AutoCloseable {
    void fill();

    void free();

    @Override
    void close();
  }

  /** A real one where the test may mount it; everywhere the error of one. */
  static Stream<Boolean> cases() {
    return SmallDisk.canMount() ? Stream.of(false, true) : Stream.of(false);
  }

  private static Disk disk(Postgres server, boolean real) throws IOException {
    return real ? mounted(server) : error(server);
  }

  private static Disk mounted(Postgres server) throws IOException {
    Path folder = Files.createTempDirectory("tepidarium-disk");
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwx--x--x"));
    SmallDisk memory = SmallDisk.inMemory(folder.resolve("memory"), DISK_MEGABYTES);
    Disk disk =
        new Disk() {
          @Override
          public void fill() {
            memory.fill();
          }

          @Override
          public void free() {
            memory.free();
          }

          @Override
          public void close() {
            memory.close();
            folder.resolve("memory").toFile().delete();
            folder.toFile().delete();
          }
        };
    try {
      server.move(DATABASE, Files.createDirectory(memory.folder().resolve("space")));
      return disk;
    } catch (IOException | AssertionError e) {
      disk.close();
      throw e;
    }
  }

  private static Disk error(Postgres server) {
    return new Disk() {
      @Override
      public void fill() {
        server.run(
            DATABASE,
            "CREATE OR REPLACE FUNCTION full_disk() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN RAISE"
                + " EXCEPTION ''could not extend file'' USING ERRCODE = ''disk_full''; END';"
                + " CREATE TRIGGER full_disk BEFORE INSERT ON seed_photo EXECUTE FUNCTION"
                + " full_disk()");
      }

      @Override
      public void free() {
        server.run(DATABASE, "DROP TRIGGER full_disk ON seed_photo");
      }

      @Override
      public void close() {}
    };
  }

  @ParameterizedTest
  @MethodSource("cases")
  void aFullDiskIsNamedAndNothingIsAcknowledged(boolean real) throws IOException {
    try (Postgres server = Postgres.started()) {
      PostgresAddress address = server.create(DATABASE);
      PostgresRecords.open(address, Tenancy.alone("test")).close();
      server.run(DATABASE, "ALTER TABLE seed_photo DROP CONSTRAINT seed_photo_entry_id_fkey");
      try (Disk disk = disk(server, real);
          Database opened = PostgresRecords.open(address, Tenancy.alone("test"))) {
        GerminationRecords records = new GerminationRecords(opened);
        records.putPhoto(new UUID(0, 1), photo());
        disk.fill();
        int[] stored = {1};
        String words =
            String.valueOf(
                assertThrows(
                        StoreException.class,
                        () -> {
                          for (int i = 2; i < MOST_PHOTOS; i++) {
                            records.putPhoto(new UUID(0, i), photo());
                            stored[0]++;
                          }
                        })
                    .getMessage());
        assertTrue(words.contains("because the disk of its server is full"), words);
        assertEquals(stored[0], records.photographed().size());
        disk.free();
        records.putPhoto(new UUID(0, 99), photo());
        assertEquals(stored[0] + 1, records.photographed().size());
      }
    }
  }

  /** One that cannot be compressed. */
  private static Photo photo() {
    byte[] bytes = new byte[PHOTO_BYTES];
    new Random(1).nextBytes(bytes);
    bytes[0] = -1;
    bytes[1] = -40;
    bytes[2] = -1;
    return new Photo(bytes);
  }
}
