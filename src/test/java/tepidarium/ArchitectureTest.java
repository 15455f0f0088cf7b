package tepidarium;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertTrue;
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
          "calibration",
          "container",
          "fault",
          "heat",
          "light",
          "history",
          "sensor",
          "alert",
          "germination",
          "season",
          "access");

  /** The packages of the API and the pages, except the server that puts them together. */
  private static final List<String> WEB =
      List.of(
          "web",
          "web.access",
          "web.alerts",
          "web.containers",
          "web.files",
          "web.germination",
          "web.heatbench",
          "web.history",
          "web.labels",
          "web.live",
          "web.mappings",
          "web.pages",
          "web.seasons",
          "web.seeds",
          "web.sensors",
          "web.settings",
          "web.sums",
          "web.system");

  /**
   * Each package and what it may use besides itself; {@code app} may use everything. The packages
   * {@code sqlite} and {@code postgres} open files and databases for the stores.
   */
  private static final Map<String, List<String>> MAY_USE =
      Map.ofEntries(
          Map.entry("reading", List.of()),
          Map.entry("stats", List.of()),
          Map.entry("access", List.of("reading")),
          Map.entry("retry", List.of("series")),
          Map.entry("thread", List.of()),
          Map.entry("disk", List.of("stats")),
          Map.entry("tls", List.of("thread")),
          Map.entry("sites", List.of("thread")),
          Map.entry("sqlite", List.of("series")),
          Map.entry(
              "backup",
              List.of(
                  "disk",
                  "reading",
                  "sqlite",
                  "records.sqlite",
                  "series.sqlite",
                  "rollup.sqlite",
                  "thread")),
          Map.entry("postgres", List.of("series", "retry")),
          Map.entry("series", List.of("reading")),
          Map.entry("series.sql", List.of("series", "reading")),
          Map.entry("series.sqlite", List.of("series", "series.sql", "reading", "sqlite")),
          Map.entry("series.influx", List.of("series", "reading")),
          Map.entry("series.cassandra", List.of("series", "reading", "retry", "tls")),
          Map.entry(
              "series.postgres", List.of("series", "series.sql", "reading", "postgres", "retry")),
          Map.entry("series.spool", List.of("series", "series.sql", "reading", "sqlite", "retry")),
          Map.entry("calibration", List.of("reading", "stats")),
          Map.entry("fault", List.of("reading", "stats")),
          Map.entry("container", List.of("reading", "calibration", "fault")),
          Map.entry("heat", List.of("reading", "container", "stats")),
          Map.entry("light", List.of("reading", "container", "stats")),
          Map.entry("history", List.of("reading", "container", "fault", "series", "heat", "light")),
          Map.entry("sensor", List.of("reading", "container", "stats")),
          Map.entry("alert", List.of("reading", "container", "fault", "heat", "light", "stats")),
          Map.entry(
              "alert.notify",
              List.of("alert", "reading", "container", "heat", "light", "retry", "thread")),
          Map.entry("germination", List.of("reading", "container", "heat", "stats")),
          Map.entry(
              "season",
              List.of("reading", "container", "heat", "light", "stats", "germination", "rollup")),
          Map.entry(
              "exchange", List.of("reading", "calibration", "container", "sensor", "germination")),
          Map.entry("importing", List.of("disk", "reading", "ingest", "series")),
          Map.entry("moving", List.of("reading", "series")),
          Map.entry("exporting", List.of("reading", "container", "series")),
          Map.entry("alert.notify.channel", List.of("alert.notify")),
          Map.entry("ingest", List.of("reading", "fault", "series")),
          Map.entry(
              "ingest.mqtt", List.of("disk", "ingest", "reading", "series", "retry", "thread")),
          Map.entry(
              "live",
              List.of(
                  "reading",
                  "container",
                  "fault",
                  "sensor",
                  "series",
                  "heat",
                  "light",
                  "history",
                  "alert",
                  "rollup")),
          Map.entry(
              "rollup",
              List.of(
                  "reading",
                  "container",
                  "fault",
                  "series",
                  "heat",
                  "light",
                  "history",
                  "germination")),
          Map.entry("rollup.sqlite", and(DOMAIN, "rollup", "sqlite")),
          Map.entry("records", and(DOMAIN, "ingest", "alert.notify", "importing")),
          Map.entry("records.sqlite", and(DOMAIN, "records", "sqlite")),
          Map.entry("records.postgres", and(DOMAIN, "records", "postgres", "retry", "thread")),
          Map.entry(
              "web", List.of("reading", "stats", "container", "fault", "heat", "rollup", "access")),
          Map.entry("web.access", List.of("web", "reading", "series", "access")),
          Map.entry(
              "web.alerts",
              List.of(
                  "web",
                  "reading",
                  "container",
                  "heat",
                  "history",
                  "alert",
                  "alert.notify",
                  "live")),
          Map.entry(
              "web.containers",
              List.of(
                  "web",
                  "web.alerts",
                  "reading",
                  "container",
                  "series",
                  "heat",
                  "history",
                  "alert",
                  "live",
                  "germination")),
          Map.entry(
              "web.germination",
              List.of(
                  "web",
                  "web.seeds",
                  "web.settings",
                  "web.sums",
                  "reading",
                  "stats",
                  "container",
                  "series",
                  "heat",
                  "germination",
                  "rollup")),
          Map.entry(
              "web.heatbench",
              List.of("web", "reading", "stats", "container", "heat", "history", "rollup")),
          Map.entry(
              "web.history",
              List.of(
                  "web",
                  "reading",
                  "calibration",
                  "container",
                  "heat",
                  "light",
                  "history",
                  "alert",
                  "germination",
                  "rollup")),
          Map.entry(
              "web.files",
              List.of(
                  "web",
                  "web.pages",
                  "reading",
                  "container",
                  "exchange",
                  "exporting",
                  "importing")),
          Map.entry("web.labels", List.of("web", "container", "germination")),
          Map.entry(
              "web.live",
              List.of(
                  "web",
                  "web.alerts",
                  "web.containers",
                  "web.sensors",
                  "reading",
                  "container",
                  "alert",
                  "alert.notify",
                  "live")),
          Map.entry("web.mappings", List.of("web", "reading", "ingest")),
          Map.entry("web.pages", List.of("web")),
          Map.entry("web.seasons", List.of("web", "reading", "germination", "season")),
          Map.entry(
              "web.seeds",
              List.of(
                  "web",
                  "web.containers",
                  "reading",
                  "stats",
                  "container",
                  "series",
                  "germination")),
          Map.entry(
              "web.sensors",
              List.of(
                  "web",
                  "reading",
                  "calibration",
                  "container",
                  "fault",
                  "series",
                  "heat",
                  "history",
                  "rollup",
                  "sensor",
                  "access",
                  "live",
                  "thread")),
          Map.entry(
              "web.server",
              and(
                  and(
                      WEB,
                      "sites",
                      "thread",
                      "tls",
                      "rollup",
                      "live",
                      "ingest",
                      "alert.notify",
                      "exchange",
                      "exporting",
                      "importing"),
                  DOMAIN.toArray(new String[0]))),
          Map.entry("web.settings", List.of("web", "web.pages", "reading", "alert.notify")),
          Map.entry("web.sums", List.of("web", "reading", "stats", "germination")),
          Map.entry("web.system", List.of("web", "access", "alert", "ingest", "live", "sites")));

  private static final List<String> STORES =
      List.of(
          "sqlite",
          "postgres",
          "series.sql",
          "series.sqlite",
          "series.postgres",
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
          Map.entry("com.datastax..", List.of("series.cassandra")),
          Map.entry("org.influxdb..", List.of("series.influx")),
          Map.entry("okhttp3..", List.of("series.influx")),
          Map.entry("com.password4j..", List.of("access")),
          Map.entry("com.github.benmanes..", List.of("rollup", "germination", "web.sensors")),
          Map.entry("io.javalin..", and(WEB, "web.server")),
          Map.entry("java.sql..", STORES),
          Map.entry("org.sqlite..", STORES),
          Map.entry("org.postgresql..", List.of("postgres")),
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

  /** A rule about a package without classes would hold whatever the code does. */
  @TestFactory
  Stream<DynamicTest> aPackageNamedInARuleHasClasses() {
    return Stream.of(
            DOMAIN.stream(),
            WEB.stream(),
            STORES.stream(),
            MAY_USE.keySet().stream(),
            MAY_USE.values().stream().flatMap(List::stream),
            LIBRARIES.values().stream().flatMap(List::stream))
        .flatMap(names -> names)
        .distinct()
        .map(name -> dynamicTest(name, () -> assertTrue(hasClasses(full(name)), name)));
  }

  private static boolean hasClasses(String name) {
    return MAIN.stream()
        .anyMatch(
            type ->
                type.getPackageName().equals(name) && !type.getSimpleName().equals("package-info"));
  }

  /** A rule about a library that nothing uses would hold whatever the code does. */
  @TestFactory
  Stream<DynamicTest> aLibraryNamedInARuleIsUsed() {
    return LIBRARIES.keySet().stream()
        .map(
            name ->
                dynamicTest(
                    name,
                    () ->
                        assertTrue(
                            MAIN.stream()
                                .flatMap(type -> type.getDirectDependenciesFromSelf().stream())
                                .anyMatch(use -> resideInAPackage(name).test(use.getTargetClass())),
                            name)));
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
  void onlyTheAppReadsTheSystemClock() {
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
    rule.check(MAIN);
  }
}
