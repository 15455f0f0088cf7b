package tepidarium.records;

import static tepidarium.records.Columns.instant;
import static tepidarium.records.Columns.ofKey;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Act;
import tepidarium.germination.Entry;
import tepidarium.germination.Figure;
import tepidarium.germination.GerminationStore;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.Origin;
import tepidarium.germination.Photo;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;

/** Stores species profiles, seed lots, the journal and photos in the records store. */
public final class GerminationRecords implements GerminationStore {
  private final Database database;

  public GerminationRecords(Database database) {
    this.database = database;
  }

  @Override
  public List<Species> species() {
    return database.transaction(
        handle -> {
          Map<String, Map<Trait, Figure>> figures = new HashMap<>();
          handle
              .createQuery("SELECT * FROM species_figure")
              .map((row, context) -> add(figures, row))
              .list();
          return handle
              .createQuery("SELECT * FROM species ORDER BY name, id")
              .map(
                  (row, context) ->
                      new Species(
                          row.getString("id"),
                          row.getString("name"),
                          figures.getOrDefault(row.getString("id"), Map.of())))
              .list();
        });
  }

  private static Trait add(Map<String, Map<Trait, Figure>> figures, ResultSet row)
      throws SQLException {
    Trait trait = Trait.ofKey(row.getString("trait"));
    figures
        .computeIfAbsent(row.getString("species_id"), id -> new EnumMap<>(Trait.class))
        .put(trait, new Figure(row.getDouble("figure"), row.getString("source")));
    return trait;
  }

  @Override
  public void putSpecies(List<Species> all) {
    database.transaction(
        handle -> {
          for (Species species : all) {
            handle.execute(
                "INSERT INTO species (id, name) VALUES (?, ?)"
                    + " ON CONFLICT (id) DO UPDATE SET name = excluded.name",
                species.id(),
                species.name());
            handle.execute("DELETE FROM species_figure WHERE species_id = ?", species.id());
            species
                .figures()
                .forEach(
                    (trait, figure) ->
                        handle.execute(
                            "INSERT INTO species_figure (species_id, trait, figure, source)"
                                + " VALUES (?, ?, ?, ?)",
                            species.id(),
                            trait.key(),
                            figure.value(),
                            figure.source()));
          }
          return all.size();
        });
  }

  @Override
  public void removeSpecies(String id) {
    database.transaction(handle -> handle.execute("DELETE FROM species WHERE id = ?", id));
  }

  @Override
  public List<Lot> lots() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM seed_lot ORDER BY id")
                .map((row, context) -> lot(row))
                .list());
  }

  private static Lot lot(ResultSet row) throws SQLException {
    @Nullable String name = row.getString("name");
    @Nullable String place = row.getString("place");
    @Nullable String kept = row.getString("kept");
    @Nullable String remark = row.getString("remark");
    @Nullable String accession = row.getString("accession");
    return new Lot(
        row.getLong("id"),
        new LotDetails(
            row.getString("species_id"),
            name,
            row.getInt("seeds"),
            instant(row, "gathered_ms"),
            ofKey(Origin.class, row.getString("origin")),
            place,
            kept,
            remark,
            accession));
  }

  @Override
  public void putLots(List<Lot> lots) {
    String sql =
        """
        INSERT INTO seed_lot (id, species_id, name, seeds, gathered_ms, origin, place, kept, remark,
          accession)
        VALUES (:id, :details.species, :details.name, :details.seeds, :details.gatheredAt,
          :details.origin, :details.place, :details.kept, :details.remark,
          :details.accession)
        ON CONFLICT (id) DO UPDATE SET species_id = excluded.species_id, name = excluded.name,
          seeds = excluded.seeds, gathered_ms = excluded.gathered_ms, origin = excluded.origin,
          place = excluded.place, kept = excluded.kept, remark = excluded.remark,
          accession = excluded.accession
        """;
    database.transaction(
        handle -> {
          for (Lot lot : lots) {
            handle.createUpdate(sql).bindMethods(lot).execute();
          }
          return lots.size();
        });
  }

  @Override
  public List<Entry> entries() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT * FROM seed_entry ORDER BY number")
                .map((row, context) -> entry(row))
                .list());
  }

  private static Entry entry(ResultSet row) throws SQLException {
    @Nullable String by = row.getString("recorded_by");
    @Nullable String remark = row.getString("remark");
    @Nullable String corrects = row.getString("corrects");
    @Nullable String reason = row.getString("reason");
    @Nullable String request = row.getString("request");
    return new Entry(
        UUID.fromString(row.getString("id")),
        row.getLong("sowing"),
        instant(row, "at_ms"),
        ActJson.read(row.getString("act")),
        instant(row, "recorded_ms"),
        by,
        remark,
        corrects == null ? null : UUID.fromString(corrects),
        reason,
        request);
  }

  @Override
  public void append(List<Entry> entries) {
    database.transaction(
        handle -> {
          entries.forEach(entry -> append(handle, entry));
          return entries.size();
        });
  }

  private static void append(Handle handle, Entry entry) {
    handle
        .createUpdate(
            """
            INSERT INTO seed_entry (id, sowing, at_ms, recorded_ms, lot_id, act, recorded_by,
              remark, corrects, reason, request)
            VALUES (:id, :sowing, :at, :recordedAt, :lot, :act, :by, :remark, :corrects, :reason,
              :request)
            """)
        .bindMethods(entry)
        .bind("lot", entry.act() instanceof Act.Sown sown ? sown.lot() : null)
        .bind("act", ActJson.write(entry.act()))
        .execute();
  }

  @Override
  public void putPhoto(UUID entry, Photo photo) {
    database.transaction(
        handle ->
            handle.execute(
                "INSERT INTO seed_photo (entry_id, picture) VALUES (?, ?)"
                    + " ON CONFLICT (entry_id) DO UPDATE SET picture = excluded.picture",
                entry.toString(),
                photo.bytes()));
  }

  @Override
  public Optional<Photo> photo(UUID entry) {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT picture FROM seed_photo WHERE entry_id = :entry")
                .bind("entry", entry.toString())
                .map((row, context) -> new Photo(row.getBytes("picture")))
                .findOne());
  }

  @Override
  public List<UUID> photographed() {
    return database.transaction(
        handle ->
            handle
                .createQuery("SELECT entry_id FROM seed_photo")
                .map((row, context) -> UUID.fromString(row.getString("entry_id")))
                .list());
  }
}
