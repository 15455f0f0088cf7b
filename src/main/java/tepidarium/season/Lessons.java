package tepidarium.season;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Draws lessons by fixed rules, at most one of each kind and {@value #MAX_LESSONS} in total. A
 * lesson names the worst case and counts the others. It uses only figures of the report; a cause is
 * named only if it was recorded or measured. The thresholds are common practice, no source.
 *
 * <ul>
 *   <li>cold, hot, dry: outside that limit for more than 5 % of the measured time, with at least 24
 *       h measured
 *   <li>daylight, lamp, light: leaks of that kind on at least two days
 *   <li>unheard: no readings for more than 5 % of the time and for at least 12 h
 *   <li>blind: a container held seeds and had no temperature readings
 *   <li>culled: more than 10 % of a sowing discarded, without seeds taken for a cut test
 *   <li>sowings, earlier, sources: a difference whose 95 % interval excludes zero
 *   <li>undecided: two sowings without a clear difference, with the number of seeds needed
 * </ul>
 */
final class Lessons {
  static final int MAX_LESSONS = 8;
  private static final Duration ONE_DAY = Duration.ofDays(1);

  private Lessons() {}

  static List<Lesson> of(
      Duration season,
      List<SowingResult> sowings,
      List<ContainerResult> containers,
      List<SowingPair> pairs,
      @Nullable SourceComparison sources,
      List<EarlierSeason> earlier) {
    List<@Nullable Lesson> lessons = new ArrayList<>();
    lessons.add(ContainerLessons.cold(containers));
    lessons.add(ContainerLessons.hot(containers));
    lessons.add(ContainerLessons.dry(containers));
    lessons.add(ContainerLessons.leaks("daylight", ContainerLessons.DAYLIGHT, containers));
    lessons.add(ContainerLessons.leaks("lamp", ContainerLessons.LAMP, containers));
    lessons.add(ContainerLessons.leaks("other", ContainerLessons.OTHER, containers));
    lessons.add(ContainerLessons.gaps(containers));
    // On the day of the sowing, the first readings may still come.
    if (season.compareTo(ONE_DAY) > 0) {
      lessons.add(ContainerLessons.unmeasured(containers));
    }
    lessons.add(ResultLessons.culled(sowings));
    lessons.add(ResultLessons.clearDifference(pairs));
    lessons.add(ResultLessons.undecided(pairs));
    lessons.add(ResultLessons.sources(sources));
    lessons.add(ResultLessons.earlier(earlier));
    return lessons.stream()
        .flatMap(Stream::ofNullable)
        .sorted(Comparator.comparingDouble(Lesson::weight).reversed())
        .limit(MAX_LESSONS)
        .toList();
  }
}
