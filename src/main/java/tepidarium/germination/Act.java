package tepidarium.germination;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.InvalidInput;

/** What was done to the seeds of a sowing. Every number is of seeds. */
public sealed interface Act {
  /** What it is called in the record: sown, moved, checked, survival or withdrawn. */
  String kind();

  /** The seed group that it was done to; null for a sowing and a withdrawal. */
  @Nullable GroupId group();

  /** Some seeds put into one container. */
  record Part(GroupId group, ContainerId container, int seeds) {
    public Part {
      Require.count("groups.seeds", seeds, 1);
    }
  }

  /** Seeds of a lot put to germinate, in one or more containers. */
  record Sown(long lot, @Nullable String name, List<Part> parts) implements Act {
    public Sown {
      name = Require.note("name", name, 60);
      parts = List.copyOf(parts);
      if (parts.isEmpty()) {
        throw new InvalidInput("groups", "must name at least one container");
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
   * Seeds moved to a container.
   *
   * @param ungerminated how many of those; null together with germinated means all that are there
   * @param splitInto the new group that a part becomes; null where it is the whole group
   * @param joinTo the group of the same sowing in that container that they are put with
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
        throw new InvalidInput("a part of a group becomes a new one or joins one");
      }
      if (group.equals(joinTo)) {
        throw new InvalidInput("group " + group + " cannot join itself");
      }
      boolean all = ungerminated == null && germinated == null;
      if (!all && splitInto == null && joinTo == null) {
        throw new InvalidInput("a part of a group needs a group to go to");
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
   * Seeds counted.
   *
   * @param germinated newly germinated since the check before
   * @param culled discarded now
   * @param pottedOn of the germinated ones, moved to pots now
   * @param rootLengthsCm of some or all germinated ones, cm
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
   * Potted seedlings of a group counted.
   *
   * @param alive of all that were potted from it
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

  /** The entry that this one corrects was a mistake and counts no more. */
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
