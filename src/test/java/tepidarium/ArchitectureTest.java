package tepidarium;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Which package may use which, which library stays where, and who may ask for the time. */
class ArchitectureTest {
  private static final JavaClasses MAIN =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("tepidarium");

  /** They know no backend, no broker and no page. */
  private static final List<String> DOMAIN =
      List.of(
          "reading",
          "stats",
          "series",
          "container",
          "heat",
          "light",
          "history",
          "alert",
          "germination",
          "season");

  /**
   * Each package and what it may use besides itself; {@code app} may use everything. The package
   * {@code sqlite} opens SQLite files for the stores that keep one.
   */
  private static final Map<String, List<String>> MAY_USE =
      Map.ofEntries(
          Map.entry("reading", List.of()),
          Map.entry("stats", List.of()),
          Map.entry("memo", List.of()),
          Map.entry("sqlite", List.of("series")),
          Map.entry("series", List.of("reading")),
          Map.entry("series.sqlite", List.of("series", "reading", "sqlite")),
          Map.entry("series.influx", List.of("series", "reading")),
          Map.entry("series.spool", List.of("series", "reading", "sqlite")),
          Map.entry("container", List.of("reading")),
          Map.entry("heat", List.of("reading", "container", "stats")),
          Map.entry("light", List.of("reading", "container", "stats")),
          Map.entry("history", List.of("reading", "container", "series", "heat", "light")),
          Map.entry("alert", List.of("reading", "container", "heat", "light", "stats")),
          Map.entry("alert.notify", List.of("alert", "reading", "container", "heat", "light")),
          Map.entry("germination", List.of("reading", "container", "heat", "stats")),
          Map.entry(
              "season",
              List.of("reading", "container", "heat", "light", "stats", "germination", "rollup")),
          Map.entry("exchange", List.of("reading", "germination")),
          Map.entry("alert.notify.channel", List.of("alert.notify")),
          Map.entry("ingest", List.of("reading", "series")),
          Map.entry("ingest.mqtt", List.of("ingest", "reading", "series")),
          Map.entry(
              "live",
              List.of(
                  "reading", "container", "series", "heat", "light", "history", "alert", "rollup")),
          Map.entry(
              "rollup",
              List.of(
                  "reading",
                  "container",
                  "series",
                  "heat",
                  "light",
                  "history",
                  "germination",
                  "memo")),
          Map.entry("rollup.sqlite", and(DOMAIN, "rollup", "sqlite")),
          Map.entry("records", and(DOMAIN, "ingest", "alert.notify")),
          Map.entry("records.sqlite", and(DOMAIN, "records", "sqlite")),
          Map.entry("records.postgres", and(DOMAIN, "records")),
          Map.entry(
              "web", and(DOMAIN, "memo", "live", "rollup", "ingest", "exchange", "alert.notify")));

  private static final List<String> STORES =
      List.of(
          "sqlite",
          "series.sqlite",
          "series.spool",
          "rollup.sqlite",
          "records",
          "records.sqlite",
          "records.postgres");

  /** A library and the packages that may use it besides {@code app}. */
  private static final Map<String, List<String>> LIBRARIES =
      Map.ofEntries(
          Map.entry("jakarta.mail..", List.of("alert.notify.channel")),
          Map.entry("org.eclipse.angus..", List.of("alert.notify.channel")),
          Map.entry("org.eclipse.paho..", List.of("ingest.mqtt")),
          Map.entry("org.apache.activemq..", List.of("ingest.mqtt")),
          Map.entry("org.influxdb..", List.of("series.influx")),
          Map.entry("okhttp3..", List.of("series.influx")),
          Map.entry("io.javalin..", List.of("web")),
          Map.entry("java.sql..", STORES),
          Map.entry("javax.sql..", STORES),
          Map.entry("org.sqlite..", STORES),
          Map.entry("org.jdbi..", STORES),
          Map.entry("org.flywaydb..", STORES));

  @TestFactory
  Stream<DynamicTest> aPackageUsesOnlyWhatItMay() {
    return MAY_USE.entrySet().stream()
        .map(
            entry ->
                rule(
                    entry.getKey() + " uses only " + entry.getValue(),
                    classes()
                        .that(resideInAPackage(full(entry.getKey())))
                        .should()
                        .onlyDependOnClassesThat(
                            foreign().or(in(and(entry.getValue(), entry.getKey()))))));
  }

  @TestFactory
  Stream<DynamicTest> aLibraryStaysWhereItBelongs() {
    return LIBRARIES.entrySet().stream()
        .map(
            entry ->
                rule(
                    entry.getKey() + " stays in " + entry.getValue(),
                    noClasses()
                        .that(DescribedPredicate.not(in(entry.getValue()).or(app())))
                        .should()
                        .dependOnClassesThat(resideInAPackage(entry.getKey()))));
  }

  @Test
  void theDomainReadsNoJsonAndWritesNoLog() {
    check(
        noClasses()
            .that(in(DOMAIN))
            .should()
            .dependOnClassesThat(resideInAnyPackage("com.fasterxml..", "org.slf4j..")));
  }

  @Test
  void everyPackageIsKnownHere() {
    check(classes().should().resideInAnyPackage(names(and(MAY_USE.keySet(), "app", "app.."))));
  }

  @Test
  void noPackagesUseEachOtherInACircle() {
    check(slices().matching("tepidarium.(**)").should().beFreeOfCycles());
  }

  @Test
  void onlyTheAppAsksTheSystemForTheTime() {
    check(noClasses().that(DescribedPredicate.not(app())).should().accessTargetWhere(systemTime()));
  }

  /** The wall clock, called or handed on; monotonic time for measuring waits is free to use. */
  private static DescribedPredicate<JavaAccess<?>> systemTime() {
    return DescribedPredicate.describe(
        "the time of the system",
        access -> {
          String owner = access.getTargetOwner().getName();
          String name = access.getTarget().getName();
          return switch (owner) {
            case "java.lang.System" -> name.equals("currentTimeMillis");
            case "java.time.Clock" -> name.startsWith("system") || name.startsWith("tick");
            case "java.util.Date", "java.util.GregorianCalendar" -> isBareConstructor(access);
            default -> owner.startsWith("java.time.") && name.equals("now") && !takesClock(access);
          };
        });
  }

  private static boolean isBareConstructor(JavaAccess<?> access) {
    return access.getTarget().getFullName().endsWith(".<init>()");
  }

  private static boolean takesClock(JavaAccess<?> access) {
    return access.getTarget().getFullName().contains("(java.time.Clock)");
  }

  private static DescribedPredicate<JavaClass> foreign() {
    return DescribedPredicate.not(resideInAPackage("tepidarium.."));
  }

  private static DescribedPredicate<JavaClass> app() {
    return resideInAPackage("tepidarium.app..");
  }

  /** In exactly these packages, not in those below them. */
  private static DescribedPredicate<JavaClass> in(Collection<String> packages) {
    return resideInAnyPackage(names(packages));
  }

  private static String[] names(Collection<String> packages) {
    return packages.stream().map(ArchitectureTest::full).toArray(String[]::new);
  }

  private static String full(String name) {
    return "tepidarium." + name;
  }

  private static List<String> and(Collection<String> names, String... more) {
    return Stream.concat(names.stream(), Stream.of(more)).toList();
  }

  private static DynamicTest rule(String name, ArchRule rule) {
    return dynamicTest(name, () -> check(rule));
  }

  private static void check(ArchRule rule) {
    rule.allowEmptyShould(true).check(MAIN);
  }
}
