package tepidarium.season;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Draws lessons by fixed rules, one of each kind: the worst case is named, the others are counted.
 * What a lesson says follows from the figures of the report alone; why something happened is said
 * only where it was written down or measured. The bounds are common practice, no source.
 *
 * <ul>
 *   <li>cold, hot, dry: outside that limit for more than 5 % of at least a day that was measured
 *   <li>daylight, lamp, light: leaks of that kind on two days or more
 *   <li>unheard: no reading for more than 5 % of the time, and at least 12 hours
 *   <li>blind: a container held seeds and was never measured
 *   <li>culled: more than 10 % of a sowing discarded for another reason than to look inside
 *   <li>sowings, earlier, sources: a difference whose 95 % interval leaves zero out
 *   <li>undecided: two sowings that cannot be told apart, with the seeds that it would have taken
 * </ul>
 */
final class Lessons {
  static final int MOST = 8;

  private Lessons() {}

  static List<Lesson> of(
      List<SowingResult> sowings,
      List<ContainerResult> containers,
      List<SowingPair> pairs,
      @Nullable SourceComparison sources,
      List<EarlierSeason> earlier) {
    List<@Nullable Lesson> drawn = new ArrayList<>();
    drawn.add(ContainerLessons.cold(containers));
    drawn.add(ContainerLessons.hot(containers));
    drawn.add(ContainerLessons.dry(containers));
    drawn.add(ContainerLessons.leaks("daylight", ContainerLessons.DAYLIGHT, containers));
    drawn.add(ContainerLessons.leaks("lamp", ContainerLessons.LAMP, containers));
    drawn.add(ContainerLessons.leaks("other", ContainerLessons.OTHER, containers));
    drawn.add(ContainerLessons.unheard(containers));
    drawn.add(ContainerLessons.blind(containers));
    drawn.add(ResultLessons.culled(sowings));
    drawn.add(ResultLessons.apart(pairs));
    drawn.add(ResultLessons.undecided(pairs));
    drawn.add(ResultLessons.sources(sources));
    drawn.add(ResultLessons.earlier(earlier));
    return drawn.stream()
        .flatMap(Stream::ofNullable)
        .sorted(Comparator.comparingDouble(Lesson::weight).reversed())
        .limit(MOST)
        .toList();
  }
}
