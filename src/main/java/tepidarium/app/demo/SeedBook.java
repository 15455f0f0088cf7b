package tepidarium.app.demo;

import java.time.LocalTime;
import java.util.List;

/**
 * The seed records of the demo: two sowings of one lychee lot with very different numbers of seeds,
 * and two sowings of one cacao lot.
 */
final class SeedBook {
  static final int GATHERED_DAYS_AGO = 28;
  static final int SOWN_DAYS_AGO = 27;
  static final LocalTime SOWN_AT = LocalTime.of(9, 0);

  private SeedBook() {}

  /** The counts of one check. */
  record Count(int germinated, int mouldy, int pottedOn) {}

  /** The seeds in one container, with the counts of each check. */
  record Portion(String container, int seeds, List<Count> counts) {}

  /** One sowing: seeds sown at the same time. */
  record Sowing(String name, List<Portion> portions) {}

  /**
   * One seed lot: seeds gathered together.
   *
   * @param seeds number of seeds
   * @param kept how the seeds were stored
   */
  record Lot(String species, int seeds, String kept, List<Sowing> sowings) {}

  static final List<Lot> LOTS =
      List.of(
          new Lot(
              "lychee",
              250,
              "in the fruit until sown",
              List.of(
                  new Sowing(
                      "Lychee on trays",
                      List.of(
                          portion("Lychee tray A", 110, 0, 1, 0, 8, 4, 0, 9, 6, 7, 2, 5, 8),
                          portion("Lychee tray B", 110, 0, 0, 0, 10, 3, 0, 8, 4, 9, 2, 3, 7))),
                  new Sowing(
                      "Lychee in a jar",
                      List.of(portion("Lychee jar", 20, 0, 0, 0, 2, 0, 0, 2, 1, 2, 0, 0, 1))))),
          new Lot(
              "cacao",
              110,
              "in the pod until sown",
              List.of(
                  new Sowing(
                      "Cacao in jars",
                      List.of(
                          portion("Cacao jar 1", 40, 1, 0, 0, 24, 1, 12, 8, 2, 18, 2, 1, 4),
                          portion("Cacao jar 2", 40, 0, 0, 0, 21, 2, 10, 9, 3, 17, 3, 2, 3))),
                  new Sowing(
                      "Cacao in a bag",
                      List.of(portion("Cacao bag", 24, 0, 1, 0, 13, 1, 6, 4, 2, 9, 1, 0, 2))))));

  /**
   * Creates a portion. The numbers are germinated, mouldy and potted on for each of the four
   * checks.
   */
  private static Portion portion(String container, int seeds, int... n) {
    return new Portion(
        container,
        seeds,
        List.of(
            new Count(n[0], n[1], n[2]),
            new Count(n[3], n[4], n[5]),
            new Count(n[6], n[7], n[8]),
            new Count(n[9], n[10], n[11])));
  }
}
