package tepidarium.packages;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Prints a number and a date in German; a run time without German data prints English ones. */
final class WritesGerman {
  private WritesGerman() {}

  public static void main(String[] arguments) {
    String date =
        DateTimeFormatter.ofPattern("d. MMM", Locale.GERMAN).format(LocalDate.of(2026, 3, 4));
    new PrintStream(System.out, true, StandardCharsets.UTF_8)
        .print(String.format(Locale.GERMAN, "%.1f am %s%n", 24.5, date));
  }
}
