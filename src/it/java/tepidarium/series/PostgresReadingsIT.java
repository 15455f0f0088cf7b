package tepidarium.series;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import tepidarium.it.Postgres;
import tepidarium.postgres.PostgresAddress;
import tepidarium.series.postgres.PostgresReadings;

/** Runs the store contract, and tests specific to PostgreSQL, against a real PostgreSQL server. */
class PostgresReadingsIT extends SeriesContract<PostgresReadings> {
  private static final String DATABASE = "garden";
  private static Postgres server;
  private static PostgresAddress address;

  @BeforeAll
  static void start() {
    server = Postgres.started();
    address = server.create(DATABASE);
  }

  /** Faster than a database for each test. */
  PostgresReadingsIT() {
    server.run(DATABASE, "DROP SCHEMA IF EXISTS readings CASCADE");
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  @Override
  PostgresReadings open() {
    return new PostgresReadings(address);
  }

  @Override
  void close(PostgresReadings opened) {
    opened.close();
  }
}
