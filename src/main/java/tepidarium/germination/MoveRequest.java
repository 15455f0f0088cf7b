package tepidarium.germination;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * A request to move a seed group or a part of it; see {@link Act.Moved}.
 *
 * @param ungerminated number of ungerminated seeds to move; null for 0
 * @param germinated number of germinated seeds to move; null for 0. If both numbers are null, the
 *     whole group moves.
 * @param joinTo group that the seeds join in the new container; null if none
 */
public record MoveRequest(
    ContainerId to,
    @Nullable Integer ungerminated,
    @Nullable Integer germinated,
    @Nullable GroupId joinTo) {

  /** The move of a group. A part that contains all seeds of the group is the group itself. */
  Act.Moved of(GroupId group, Sowing sowing, Instant at) {
    SowingTimeline timeline = sowing.timeline();
    GroupState state = timeline == null ? null : timeline.at(at).get(group);
    if (isWhole() || (state != null && containsAll(state))) {
      return whole(group, null);
    }
    return part(group, joinTo == null ? sowing.unusedGroup(1) : null);
  }

  /**
   * The move that corrects an earlier one. A part keeps its group number, which later entries use.
   */
  Act.Moved inPlaceOf(Act.Moved earlier, Sowing sowing) {
    GroupId split = joinTo == null ? earlier.splitInto() : null;
    if (isWhole()) {
      return whole(earlier.group(), split);
    }
    boolean needsGroup = split == null && joinTo == null;
    return part(earlier.group(), needsGroup ? sowing.unusedGroup(1) : split);
  }

  private boolean isWhole() {
    return ungerminated == null && germinated == null;
  }

  private boolean containsAll(GroupState group) {
    return group.living() > 0
        && group.ungerminated() == orZero(ungerminated)
        && group.germinated() == orZero(germinated);
  }

  private Act.Moved whole(GroupId group, @Nullable GroupId split) {
    return new Act.Moved(group, to, null, null, split, joinTo);
  }

  private Act.Moved part(GroupId group, @Nullable GroupId split) {
    return new Act.Moved(group, to, orZero(ungerminated), orZero(germinated), split, joinTo);
  }

  private static int orZero(@Nullable Integer count) {
    return count == null ? 0 : count;
  }
}
