package tepidarium.germination;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * The state of a seed group at one instant. Its seeds are ungerminated, germinated, culled or
 * potted. Seeds that moved to another group are not counted.
 *
 * @param container container of the living seeds, or the last one
 * @param ungerminated sound seeds that have not germinated
 * @param germinated germinated seeds in the container
 * @param culledUngerminated seeds culled before they germinated
 * @param culledGerminated seeds culled after they germinated
 * @param potted seedlings potted from the group
 * @param alive potted seedlings that are alive, according to the last count
 * @param lastSeen times at which its ungerminated seeds were last seen sound, oldest first; seeds
 *     that joined since the last check keep their own time
 * @param checkedAt null before its first check
 * @param endedAt time at which its last living seed left; null before
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

  static GroupState sown(Act.Part part, Instant at) {
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
        List.of(SeedPath.startingIn(part.container(), at)));
  }

  /**
   * The time at which its ungerminated seeds were last seen sound; the earliest time if they
   * differ.
   *
   * @throws IllegalStateException if no ungerminated seed is left
   */
  public Instant soundAt() {
    if (lastSeen.isEmpty()) {
      throw new IllegalStateException("group " + id + " has no ungerminated seeds");
    }
    return lastSeen.get(0).at();
  }

  /** The number of ungerminated seeds last seen at or before an instant, such as the sowing. */
  public int seenBy(Instant instant) {
    return lastSeen.stream()
        .filter(seen -> !seen.at().isAfter(instant))
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

  /** Seeds that germinated in this group, without those that moved to another group. */
  public int everGerminated() {
    return germinated + culledGerminated + potted;
  }

  /** All seeds of the group, without those that moved to another group. */
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
    return with(ungerminated, germinated, to, at, lastSeen, movedPaths(to, at));
  }

  private List<SeedPath> movedPaths(ContainerId to, Instant at) {
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

  /** Creates a new group from a part of this one. */
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
        movedPaths(to, at));
  }

  /**
   * Adds seeds of another group to this one. The paths of the result are those of the ungerminated
   * seeds; of all seeds in the container if none is ungerminated.
   */
  GroupState joinedBy(GroupState other, int ungerminatedCome, int germinatedCome, Instant at) {
    boolean anyUngerminated = ungerminated + ungerminatedCome > 0;
    List<SeedPath> joinedPaths =
        SeedPath.joined(
            seedPaths,
            anyUngerminated ? ungerminated : germinated,
            other.movedPaths(container, at),
            anyUngerminated ? ungerminatedCome : germinatedCome);
    return with(
        ungerminated + ungerminatedCome,
        germinated + germinatedCome,
        container,
        at,
        LastSeen.joined(lastSeen, LastSeen.part(other.lastSeen, ungerminatedCome)),
        joinedPaths);
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
