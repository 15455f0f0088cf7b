package tepidarium.importing;

/** Writes a number with its noun, such as "1 row" or "1,200 rows". */
public final class Amount {
  private Amount() {}

  public static String of(long number, String noun) {
    return "%,d %s%s".formatted(number, noun, number == 1 ? "" : "s");
  }
}
