package tepidarium.germination;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** An action on the seeds of a sowing. All counts are counts of seeds. */
public sealed interface Act {
  /** Its name in the journal: sown, moved, checked, survival, named or withdrawn. */
  String kind();

  /** The seed group that it changes; null for a sowing, its name, and a withdrawal. */
  @Nullable GroupId group();

  /** Seeds of a sowing that were put into one container as one group. */
  record Part(GroupId group, ContainerId container, int seeds) {
    public Part {
      Require.count("groups.seeds", seeds, 1);
    }
  }

  /** A sowing: seeds of a lot are put into one or more containers. */
  record Sown(long lot, @Nullable String name, List<Part> parts) implements Act {
    public Sown {
      name = Require.note("name", name, 60);
      parts = List.copyOf(parts);
      if (parts.isEmpty()) {
        throw new InvalidInput(
            "groups", "must name at least one container", InputRule.MISSING.with());
      }
      Require.count("the number of seeds sown", seeds(parts), 1);
    }

    private static int seeds(List<Part> parts) {
      return parts.stream().mapToInt(Part::seeds).reduce(0, Math::addExact);
    }

    public int seeds() {
      return seeds(parts);
    }

    @Override
    public String kind() {
      return "sown";
    }

    @Override
    public @Nullable GroupId group() {
      return null;
    }
  }

  /**
   * A move of seeds to a container.
   *
   * @param ungerminated number of ungerminated seeds moved; null for 0. If {@code germinated} is
   *     null too, all seeds of the group move.
   * @param germinated number of germinated seeds moved; null for 0
   * @param splitInto new group for the moved part; null if the whole group moves or if it joins
   *     another
   * @param joinTo group in that container, of the same sowing, that the moved seeds join; null if
   *     none
   */
  record Moved(
      GroupId group,
      ContainerId to,
      @Nullable Integer ungerminated,
      @Nullable Integer germinated,
      @Nullable GroupId splitInto,
      @Nullable GroupId joinTo)
      implements Act {
    public Moved {
      Require.count("ungerminated", ungerminated, 0);
      Require.count("germinated", germinated, 0);
      if (splitInto != null && joinTo != null) {
        throw new InvalidInput(
            "a part of a group must either become a new group or join one, not both");
      }
      if (group.equals(joinTo)) {
        throw new InvalidInput("group " + group + " cannot join itself");
      }
      boolean all = ungerminated == null && germinated == null;
      if (!all && splitInto == null && joinTo == null) {
        throw new InvalidInput("a part of a group needs a new group or a group to join");
      }
    }

    public boolean all() {
      return ungerminated == null && germinated == null;
    }

    @Override
    public String kind() {
      return "moved";
    }
  }

  /**
   * A check: seeds are counted.
   *
   * @param germinated seeds that germinated since the previous check
   * @param culled seeds discarded at this check
   * @param pottedOn germinated seeds potted at this check
   * @param rootLengthsCm root lengths of some or all germinated seeds, cm, each 0 to 200
   */
  record Checked(
      GroupId group, int germinated, List<Culled> culled, int pottedOn, List<Double> rootLengthsCm)
      implements Act {
    public Checked {
      Require.count("germinated", germinated, 0);
      Require.count("pottedOn", pottedOn, 0);
      culled = List.copyOf(culled);
      rootLengthsCm = List.copyOf(rootLengthsCm);
      rootLengthsCm.forEach(cm -> Require.within("rootLengthsCm", cm, 0, 200, "cm"));
    }

    int culledCount(boolean hadGerminated) {
      return culled.stream()
          .filter(line -> line.germinated() == hadGerminated)
          .mapToInt(Culled::count)
          .sum();
    }

    @Override
    public String kind() {
      return "checked";
    }
  }

  /**
   * A count of the potted seedlings of a group.
   *
   * @param alive living seedlings among all that were potted from the group
   */
  record Survival(GroupId group, int alive) implements Act {
    public Survival {
      Require.count("alive", alive, 0);
    }

    @Override
    public String kind() {
      return "survival";
    }
  }

  /**
   * A name given to a group, or to the whole sowing. The newest name is valid.
   *
   * @param group null for the sowing
   * @param name at most 60 characters; null takes the name away
   */
  record Named(@Nullable GroupId group, @Nullable String name) implements Act {
    public Named {
      name = Require.note("name", name, 60);
    }

    @Override
    public String kind() {
      return "named";
    }
  }

  /** A withdrawal: the corrected entry was a mistake and is no longer valid. */
  record Withdrawn() implements Act {
    @Override
    public String kind() {
      return "withdrawn";
    }

    @Override
    public @Nullable GroupId group() {
      return null;
    }
  }
}
