package tepidarium.germination;

import java.time.Instant;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;

/** Lists, adds and changes seed lots. Thread-safe; changes run one at a time. */
public final class LotBook {
  private final SeedRecord record;

  LotBook(SeedRecord record) {
    this.record = record;
  }

  /** All lots, by number. */
  public List<Lot> all() {
    return List.copyOf(record.snapshot().lots().values());
  }

  public Optional<Lot> find(long id) {
    return Optional.ofNullable(record.snapshot().lots().get(id));
  }

  /** Number of seeds of a lot that were sown. */
  public int sown(long lot) {
    return record.snapshot().sown(lot);
  }

  public Lot add(LotDetails details, Instant now) {
    synchronized (record) {
      return put(new Lot(record.snapshot().nextLot(), details), now);
    }
  }

  /**
   * Changes a seed lot.
   *
   * @throws NoSuchElementException if there is no lot with that number
   * @throws Contradiction if its sowings contradict the change
   */
  public Lot change(long id, LotDetails details, Instant now) {
    synchronized (record) {
      if (find(id).isEmpty()) {
        throw SeedSnapshot.noLot(id);
      }
      return put(new Lot(id, details), now);
    }
  }

  private Lot put(Lot lot, Instant now) {
    record.check(lot, now);
    record.putLots(List.of(lot));
    return lot;
  }
}
