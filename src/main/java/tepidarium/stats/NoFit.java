package tepidarium.stats;

import java.util.Locale;

/** Why counts do not identify a curve. The code lets a page say it in another language. */
public enum NoFit {
  NO_CHECK("no check was recorded after the start; at least one is needed"),
  NONE_GERMINATED("no seed has germinated yet; counts of germinated seeds are needed"),
  EVERY_SEED(
      "every seed germinated, so the final fraction is 1; use the fit without a final fraction"),
  ON_BOUND(
      "these counts do not show that some seeds never germinate, because the estimated final"
          + " fraction is 1; use the fit without a final fraction"),
  FLAT("more than one curve fits these counts equally well; counts from more checks are needed"),
  SAME_CHECKS(
      "all germinated seeds were found between the same two checks, so the spread of their"
          + " times is unknown; check more often while seeds germinate"),
  NEIGHBOURING_CHECKS(
      "all germinated seeds were found in neighbouring intervals between checks, so neither"
          + " their time nor its spread can be estimated; check more often while seeds"
          + " germinate"),
  ENDLESS_SPREAD("the estimated spread grows without limit; counts from more checks are needed"),
  /** Over heat only. */
  NO_HEAT(
      "some seeds germinated although the readings show no heat above the base "
          + "temperature: the base temperature is too high, or the readings do not "
          + "show how warm the seeds were"),
  /** Over heat only. */
  UNMEASURED("less than half of the time that the seeds were kept is covered by readings"),
  /** Over heat only. */
  BEYOND(
      "the estimated median is more than twice the greatest heat at any check, "
          + "too far beyond the data to be estimated");

  private final String words;

  NoFit(String words) {
    this.words = words;
  }

  /** The reason in English, without a full stop. */
  public String words() {
    return words;
  }

  /** The code in the API, such as {@code no-check}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
