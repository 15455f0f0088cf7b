package tepidarium.records;

import static tepidarium.records.Columns.instant;
import static tepidarium.records.Columns.instantOrNull;
import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import tepidarium.access.AccessStore;
import tepidarium.access.ApiToken;
import tepidarium.access.Person;
import tepidarium.access.Role;
import tepidarium.access.Session;

/** Stores people, sessions and tokens in the records store. */
public final class AccessRecords implements AccessStore {
  private final Database database;

  public AccessRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<Person> people() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM person ORDER BY id")
                .map((row, context) -> person(row))
                .list());
  }

  private static Person person(ResultSet row) throws SQLException {
    return new Person(
        row.getLong("id"),
        row.getString("name"),
        ofKey(Role.class, row.getString("role")),
        row.getString("password_hash"));
  }

  @Override
  public long addPerson(Person person) {
    return database.transaction(
        handle ->
            handle
                .createUpdate(
                    "INSERT INTO person (name, role, password_hash) VALUES (:name, :role, :hash)")
                .bind("name", person.name())
                .bind("role", person.role())
                .bind("hash", person.passwordHash())
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one());
  }

  @Override
  public void changePerson(Person person) {
    execute(
        "UPDATE person SET role = ?, password_hash = ? WHERE id = ?",
        person.role(),
        person.passwordHash(),
        person.id());
  }

  @Override
  public void removePerson(long id) {
    database.transaction(
        handle ->
            handle.execute("DELETE FROM session WHERE person = ?", id)
                + handle.execute("DELETE FROM person WHERE id = ?", id));
  }

  @Override
  public List<Session> sessions() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM session ORDER BY id")
                .map((row, context) -> session(row))
                .list());
  }

  private static Session session(ResultSet row) throws SQLException {
    return new Session(
        row.getLong("id"),
        row.getString("hash"),
        row.getLong("person"),
        instant(row, "started_ms"),
        instant(row, "used_ms"),
        row.getBoolean("year_long"),
        row.getString("address"),
        row.getString("device"));
  }

  @Override
  public long addSession(Session session) {
    return database.transaction(
        handle ->
            handle
                .createUpdate(
                    "INSERT INTO session (hash, person, started_ms, used_ms, year_long, address,"
                        + " device) VALUES (:hash, :person, :started, :used, :year, :address,"
                        + " :device)")
                .bind("hash", session.hash())
                .bind("person", session.person())
                .bind("started", session.startedAt())
                .bind("used", session.usedAt())
                .bind("year", session.yearLong())
                .bind("address", session.address())
                .bind("device", session.device())
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one());
  }

  @Override
  public void usedSession(long id, Instant at) {
    execute("UPDATE session SET used_ms = ? WHERE id = ?", at, id);
  }

  @Override
  public void removeSession(long id) {
    execute("DELETE FROM session WHERE id = ?", id);
  }

  @Override
  public List<ApiToken> tokens() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM api_token ORDER BY id")
                .map((row, context) -> token(row))
                .list());
  }

  private static ApiToken token(ResultSet row) throws SQLException {
    return new ApiToken(
        row.getLong("id"),
        row.getString("name"),
        ofKey(Role.class, row.getString("role")),
        row.getString("hash"),
        instant(row, "created_ms"),
        instant(row, "ends_ms"),
        instantOrNull(row, "used_ms"));
  }

  @Override
  public long addToken(ApiToken token) {
    return database.transaction(
        handle ->
            handle
                .createUpdate(
                    "INSERT INTO api_token (name, role, hash, created_ms, ends_ms) VALUES (:name,"
                        + " :role, :hash, :created, :ends)")
                .bind("name", token.name())
                .bind("role", token.role())
                .bind("hash", token.hash())
                .bind("created", token.createdAt())
                .bind("ends", token.endsAt())
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one());
  }

  @Override
  public void usedToken(long id, Instant at) {
    execute("UPDATE api_token SET used_ms = ? WHERE id = ?", at, id);
  }

  @Override
  public void removeToken(long id) {
    execute("DELETE FROM api_token WHERE id = ?", id);
  }

  private void execute(String sql, Object... values) {
    database.transaction(handle -> handle.execute(sql, values));
  }
}
