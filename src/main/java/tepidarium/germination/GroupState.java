package tepidarium.germination;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * A seed group at one instant. The seeds it ever held that did not leave it for another group are
 * ungerminated, germinated, culled or potted.
 *
 * @param container where the living seeds are, or were last
 * @param ungerminated sound and not germinated
 * @param germinated in the container
 * @param culledUngerminated discarded before they germinated
 * @param culledGerminated discarded after they germinated
 * @param potted seedlings potted from it
 * @param alive of the potted ones, as far as known
 * @param lastSeen when its ungerminated seeds were last seen sound, the earliest first; seeds that
 *     were joined without a check since then keep their own time
 * @param checkedAt null until its first check
 * @param endedAt when its last living seed left it; null before
 */
public record GroupState(
    GroupId id,
    ContainerId container,
    int ungerminated,
    int germinated,
    int culledUngerminated,
    int culledGerminated,
    int potted,
    int alive,
    List<LastSeen> lastSeen,
    @Nullable Instant checkedAt,
    @Nullable Instant endedAt,
    List<SeedPath> seedPaths) {
  public GroupState {
    lastSeen = List.copyOf(lastSeen);
    seedPaths = List.copyOf(seedPaths);
  }

  static GroupState begun(Act.Part part, Instant at) {
    return new GroupState(
        part.group(),
        part.container(),
        part.seeds(),
        0,
        0,
        0,
        0,
        0,
        LastSeen.all(part.seeds(), at),
        null,
        null,
        List.of(SeedPath.begun(part.container(), at)));
  }

  /**
   * When its ungerminated seeds were last seen sound; of joined seeds the earliest.
   *
   * @throws IllegalStateException where none is left
   */
  public Instant soundAt() {
    if (lastSeen.isEmpty()) {
      throw new IllegalStateException("group " + id + " has no ungerminated seeds");
    }
    return lastSeen.get(0).at();
  }

  /** Ungerminated seeds that were last seen sound by an instant, such as that of the sowing. */
  public int seenBy(Instant instant) {
    return lastSeen.stream()
        .filter(one -> !one.at().isAfter(instant))
        .mapToInt(LastSeen::seeds)
        .sum();
  }

  /** Seeds in the container. */
  public int living() {
    return ungerminated + germinated;
  }

  public int culled() {
    return culledUngerminated + culledGerminated;
  }

  /** All that germinated and did not leave for another group, whatever became of them. */
  public int everGerminated() {
    return germinated + culledGerminated + potted;
  }

  /** All that did not leave for another group. */
  public int seeds() {
    return living() + culled() + potted;
  }

  private GroupState with(
      int ungerminated,
      int germinated,
      ContainerId container,
      Instant at,
      List<LastSeen> lastSeen,
      List<SeedPath> seedPaths) {
    return new GroupState(
        id,
        container,
        ungerminated,
        germinated,
        culledUngerminated,
        culledGerminated,
        potted,
        alive,
        lastSeen,
        checkedAt,
        ungerminated + germinated == 0 ? at : null,
        seedPaths);
  }

  GroupState movedTo(ContainerId to, Instant at) {
    return with(ungerminated, germinated, to, at, lastSeen, ways(to, at));
  }

  private List<SeedPath> ways(ContainerId to, Instant at) {
    return seedPaths.stream().map(seedPath -> seedPath.movedTo(to, at)).toList();
  }

  GroupState without(int ungerminatedGone, int germinatedGone, Instant at) {
    int left = ungerminated - ungerminatedGone;
    return with(
        left,
        germinated - germinatedGone,
        container,
        at,
        LastSeen.without(lastSeen, ungerminatedGone),
        seedPaths);
  }

  /** The new group that a part of this one becomes. */
  GroupState part(
      GroupId part, int ungerminatedTaken, int germinatedTaken, ContainerId to, Instant at) {
    return new GroupState(
        part,
        to,
        ungerminatedTaken,
        germinatedTaken,
        0,
        0,
        0,
        0,
        LastSeen.part(lastSeen, ungerminatedTaken),
        checkedAt,
        null,
        ways(to, at));
  }

  /**
   * This group with seeds of another one put to it. Its heat is that of the seeds that can still
   * germinate; where none can, that of all seeds in the container.
   */
  GroupState joinedBy(GroupState other, int ungerminatedCome, int germinatedCome, Instant at) {
    boolean waiting = ungerminated + ungerminatedCome > 0;
    List<SeedPath> both =
        SeedPath.joined(
            seedPaths,
            waiting ? ungerminated : germinated,
            other.ways(container, at),
            waiting ? ungerminatedCome : germinatedCome);
    return new GroupState(
        id,
        container,
        ungerminated + ungerminatedCome,
        germinated + germinatedCome,
        culledUngerminated,
        culledGerminated,
        potted,
        alive,
        LastSeen.joined(lastSeen, LastSeen.part(other.lastSeen, ungerminatedCome)),
        checkedAt,
        null,
        both);
  }

  GroupState checked(Act.Checked check, Instant at) {
    int culledBefore = check.culledCount(false);
    int culledAfter = check.culledCount(true);
    int left = ungerminated - check.germinated() - culledBefore;
    int up = germinated + check.germinated() - culledAfter - check.pottedOn();
    return new GroupState(
        id,
        container,
        left,
        up,
        culledUngerminated + culledBefore,
        culledGerminated + culledAfter,
        potted + check.pottedOn(),
        alive + check.pottedOn(),
        LastSeen.all(left, at),
        at,
        left + up == 0 ? at : null,
        seedPaths);
  }

  GroupState survived(int aliveNow) {
    return new GroupState(
        id,
        container,
        ungerminated,
        germinated,
        culledUngerminated,
        culledGerminated,
        potted,
        aliveNow,
        lastSeen,
        checkedAt,
        endedAt,
        seedPaths);
  }
}
