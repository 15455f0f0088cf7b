package tepidarium.records;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.access.AnonymousSensors;
import tepidarium.access.SensorAccount;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertFilter;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertReason;
import tepidarium.alert.AlertRuleStore;
import tepidarium.alert.Condition;
import tepidarium.alert.OutOfService;
import tepidarium.alert.Priority;
import tepidarium.alert.RaisedAlert;
import tepidarium.alert.RuleOverride;
import tepidarium.alert.Transition;
import tepidarium.alert.Trend;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Opening;
import tepidarium.container.Placement;
import tepidarium.fault.ArrivalFault;
import tepidarium.fault.FaultDecision;
import tepidarium.fault.FaultKind;
import tepidarium.germination.Act;
import tepidarium.germination.CullReason;
import tepidarium.germination.Culled;
import tepidarium.germination.Entry;
import tepidarium.germination.Figure;
import tepidarium.germination.GroupId;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.Origin;
import tepidarium.germination.Photo;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;
import tepidarium.heat.DayExtremes;
import tepidarium.ingest.MappedBytes;
import tepidarium.ingest.MappedValue;
import tepidarium.ingest.MappingRule;
import tepidarium.ingest.MappingStore;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;
import tepidarium.ingest.RejectLog;
import tepidarium.reading.DeviceStatus;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.season.SeasonStore;
import tepidarium.season.StoredSeason;
import tepidarium.sensor.SensorDetails;
import tepidarium.series.StoreException;

/**
 * Contract tests for every database that holds the records. A backend's test only opens its own
 * database. Each step opens the database anew, as a restart does.
 */
abstract class RecordsContract extends NoticesAndAccessContract {
  private static final Instant START = Instant.parse("2026-03-01T06:00:00.123Z");
  static final ContainerId BAG = new ContainerId("bag");
  private static final SensorId SENSOR = new SensorId("sensor-1");
  static final AlertKey KEY = new AlertKey(BAG, AlertKind.COLD);

  private static final List<AlertReason> REASONS =
      List.of(
          AlertReason.Code.STUCK.with("lid-2", "humidity", 61.0, 6.25),
          AlertReason.Code.BEFORE.with(START, null, null, null),
          AlertReason.Code.NO_SENSOR.with());
  private static final AlertRuleStore.Decision DECISION =
      new AlertRuleStore.Decision(
          new RuleOverride(null, 0.75, Duration.ofMinutes(3), null, Priority.LOW),
          new OutOfService(START, "Ada", null));

  static Container bag(String name) {
    return bag(name, null, null);
  }

  private static Container bag(
      String name, @Nullable String heatSource, @Nullable Double ceilingC) {
    return bag(name, heatSource, null, ceilingC);
  }

  private static Container bag(
      String name, @Nullable String heatSource, @Nullable String room, @Nullable Double ceilingC) {
    return new Container(
        BAG,
        new ContainerSettings(
            name, ContainerKind.BAG, heatSource, room, 10.5, ceilingC, new Band(29, 33.5, 2, 85)),
        START);
  }

  @Test
  void containersSurviveARestart() {
    Container plain = bag("Bag");
    change(database -> new ContainerRecords(database).put(plain));
    assertEquals(List.of(plain), read(database -> new ContainerRecords(database).containers()));

    Container full = bag("Großer Beutel 🌱", "heat mat", "Bänke, hinten", 38.0);
    change(database -> new ContainerRecords(database).put(full));
    assertEquals(List.of(full), read(database -> new ContainerRecords(database).containers()));
  }

  @Test
  void detailsAndStatusesOfSensorsSurviveARestart() {
    SensorDetails full = new SensorDetails("Lid", "Near the lamp", 2.1, START);
    DeviceStatus status = new DeviceStatus(SENSOR, START, -61, "1.4");
    DeviceStatus other = new DeviceStatus(new SensorId("sensor-2"), START, null, "2");
    change(
        database -> {
          SensorRecords records = new SensorRecords(database);
          records.put(SENSOR, new SensorDetails("Old", null, null, null));
          records.put(SENSOR, full);
          records.putStatuses(List.of(new DeviceStatus(SENSOR, START.minusSeconds(9), -90, null)));
          records.putStatuses(List.of(status, other));
        });
    assertEquals(Map.of(SENSOR, full), read(database -> new SensorRecords(database).details()));
    assertEquals(
        Map.of(SENSOR, status, other.sensor(), other),
        read(database -> new SensorRecords(database).statuses()));
    change(database -> new SensorRecords(database).put(SENSOR, SensorDetails.NONE));
    assertEquals(
        Map.of(SENSOR, SensorDetails.NONE),
        read(database -> new SensorRecords(database).details()));
  }

  @Test
  void placementsSurviveARestartAndAreReplacedWhole() {
    Placement first = new Placement(SENSOR, BAG, START, START.plusSeconds(60));
    Placement second = new Placement(SENSOR, ContainerId.ROOM, START.plusSeconds(60), null);
    change(database -> new ContainerRecords(database).put(bag("Bag")));
    change(
        database ->
            new ContainerRecords(database)
                .replacePlacements(Map.of(SENSOR, List.of(first, second))));
    assertEquals(
        List.of(first, second), read(database -> new ContainerRecords(database).placements()));

    change(
        database ->
            new ContainerRecords(database).replacePlacements(Map.of(SENSOR, List.of(second))));
    assertEquals(List.of(second), read(database -> new ContainerRecords(database).placements()));
  }

  @Test
  void calibrationsAndOpeningsSurviveARestart() {
    Calibration calibration = new Calibration(-0.35, 2.5, 0.2);
    Opening opening = new Opening(BAG, new Span(START, START.plusSeconds(600)));
    change(
        database -> {
          ContainerRecords records = new ContainerRecords(database);
          records.put(bag("Bag"));
          records.putCalibration(SENSOR, Calibration.NONE);
          records.putCalibration(SENSOR, calibration);
          records.addOpening(opening);
        });

    assertEquals(
        Map.of(SENSOR, calibration),
        read(database -> new ContainerRecords(database).calibrations()));
    assertEquals(List.of(opening), read(database -> new ContainerRecords(database).openings()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).declinedOpenings()));
  }

  @Test
  void decisionsAboutFaultsSurviveARestartInTheirOrder() {
    FaultDecision out =
        new FaultDecision(
            SENSOR,
            Quantity.TEMPERATURE,
            FaultKind.STUCK,
            START,
            START.plusSeconds(3600),
            true,
            START.plusSeconds(9000),
            "Ada");
    FaultDecision in =
        new FaultDecision(
            SENSOR,
            null,
            FaultKind.WRONG_CLOCK,
            START,
            START,
            false,
            START.plusSeconds(9001),
            "Grace");
    change(database -> new ContainerRecords(database).addFaultDecision(out));
    change(database -> new ContainerRecords(database).addFaultDecision(in));
    assertEquals(
        List.of(out, in), read(database -> new ContainerRecords(database).faultDecisions()));
  }

  @Test
  void faultsOfOneKindWithinAnHourAreStoredAsOneStretch() {
    List<ArrivalFault> faults = new ArrayList<>();
    for (int minute : List.of(0, 50, 100, 170)) {
      Instant at = START.plusSeconds(minute * 60L);
      faults.add(
          ArrivalFault.ofValue(SENSOR, Quantity.TEMPERATURE, at, minute == 170 ? -127 : 130));
    }
    faults.add(ArrivalFault.ofClock(SENSOR, START, -70));
    change(database -> new FaultRecords(database).add(faults.subList(0, 2)));
    change(database -> new FaultRecords(database).add(faults.subList(2, 5)));
    Span span = new Span(START.minusSeconds(60), START.plusSeconds(86_400));
    List<String> stretches =
        read(database -> new FaultRecords(database).of(SENSOR, span)).stream()
            .map(
                fault ->
                    fault.kind()
                        + " "
                        + fault.readings()
                        + " "
                        + Duration.between(START, fault.from()).toMinutes()
                        + "-"
                        + Duration.between(START, fault.to()).toMinutes())
            .sorted()
            .toList();
    assertEquals(
        List.of("NOT_CONNECTED 1 170-170", "RAW_LIMIT 3 0-100", "WRONG_CLOCK 1 0-0"), stretches);
    Span early = new Span(START, START.plusSeconds(1));
    assertEquals(
        List.of("RAW_LIMIT 3", "WRONG_CLOCK 1"),
        read(database -> new FaultRecords(database).of(SENSOR, early)).stream()
            .map(fault -> fault.kind() + " " + fault.readings())
            .sorted()
            .toList());
  }

  @Test
  void calibrationPointsSurviveARestartAndRemovedOnesStayInTheStore() {
    CalibrationPoint ice =
        new CalibrationPoint(
            SENSOR,
            Quantity.TEMPERATURE,
            START,
            0.4,
            0,
            0.06,
            CalibrationMethod.ICE_POINT,
            "Eis 🧊");
    CalibrationPoint warm =
        new CalibrationPoint(
            SENSOR,
            Quantity.TEMPERATURE,
            START.plusSeconds(60),
            30.3,
            30,
            0.05,
            CalibrationMethod.COMPARISON,
            null);
    change(
        database -> {
          new ContainerRecords(database).addCalibrationPoint(ice, START);
          new ContainerRecords(database).addCalibrationPoint(warm, START);
        });
    List<CalibrationPoint.Stored> stored =
        read(database -> new ContainerRecords(database).calibrationPoints());
    assertEquals(List.of(ice, warm), stored.stream().map(CalibrationPoint.Stored::point).toList());

    change(
        database ->
            new ContainerRecords(database).removeCalibrationPoint(stored.get(0).id(), START));
    assertEquals(
        List.of(stored.get(1)),
        read(database -> new ContainerRecords(database).calibrationPoints()));
    String removed = "SELECT count(*) FROM calibration_point WHERE removed_ms = ?";
    Integer marked =
        read(
            database ->
                database.transaction(
                    handle ->
                        handle
                            .createQuery(removed)
                            .bind(0, START.toEpochMilli())
                            .mapTo(Integer.class)
                            .one()));
    assertEquals(1, marked.intValue());
  }

  @Test
  void declinedOpeningsSurviveARestart() {
    Opening declined = new Opening(BAG, new Span(START, START.plusSeconds(300)));
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          new ContainerRecords(database).addDeclinedOpening(declined);
          new ContainerRecords(database).addDeclinedOpening(declined);
        });
    assertEquals(
        List.of(declined), read(database -> new ContainerRecords(database).declinedOpenings()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).openings()));
    change(database -> new ContainerRecords(database).remove(BAG));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).declinedOpenings()));
  }

  @Test
  void aRemovedContainerTakesWhatBelongsToItAlong() {
    change(
        database -> {
          ContainerRecords records = new ContainerRecords(database);
          records.put(bag("Bag"));
          records.replacePlacements(
              Map.of(SENSOR, List.of(new Placement(SENSOR, BAG, START, null))));
          records.addOpening(new Opening(BAG, new Span(START, START.plusSeconds(600))));
          new AlertRecords(database).record(alert(1, null, null), null, raised(1));
          new AlertRuleRecords(database).put(KEY, DECISION);
        });

    change(database -> new ContainerRecords(database).remove(BAG));

    assertEquals(List.of(), read(database -> new ContainerRecords(database).containers()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).placements()));
    assertEquals(List.of(), read(database -> new ContainerRecords(database).openings()));
    assertEquals(List.of(), read(database -> new AlertRecords(database).newest(10)));
    assertEquals(List.of(), read(database -> new AlertRecords(database).transitions(1)));
    assertEquals(Map.of(), read(database -> new AlertRuleRecords(database).decisions()));
    assertEquals(1, lastAlertId(), "no number is given twice");
  }

  private static Alert alert(
      long id, @Nullable Instant returnedAt, @Nullable Instant acknowledgedAt) {
    String by = acknowledgedAt == null ? null : "Ada";
    return new Alert(
        id,
        BAG,
        AlertKind.COLD,
        29.5,
        START,
        START.plusSeconds(600),
        returnedAt,
        acknowledgedAt,
        by,
        START.plusSeconds(900),
        28.25,
        27.5,
        new Alert.Extra(
            Priority.HIGH,
            "Ida",
            "in words",
            id == 5 ? List.of() : REASONS,
            id == 5 ? null : new Trend(30.1, -1.2, 24),
            START.plusSeconds(7_200),
            id == 5));
  }

  long lastAlertId() {
    return read(database -> new AlertRecords(database).lastId());
  }

  private static Transition raised(long alertId) {
    return new Transition(
        0,
        alertId,
        KEY,
        Transition.What.RAISED,
        START,
        START.plusSeconds(1),
        "Ada",
        "why",
        REASONS);
  }

  @Test
  void alertsSurviveARestartAndOpenOnesAreFound() {
    Instant later = START.plusSeconds(3_600);
    List<Alert> alerts =
        List.of(
            alert(1, later, later),
            alert(2, later, null),
            alert(3, null, later),
            alert(4, null, null),
            alert(5, later, null));
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          new AlertRecords(database).save(alerts, Map.of());
        });

    assertEquals(alerts.subList(1, 4), read(database -> new AlertRecords(database).open()));
    assertEquals(
        List.of(alerts.get(3), alerts.get(2)),
        read(database -> new AlertRecords(database).newest(2)));
    assertEquals(5, lastAlertId());
    assertEquals(alerts.get(4), read(database -> new AlertRecords(database).alert(5)).get());
    AlertFilter two = new AlertFilter(BAG, START, START.plusSeconds(601), 2);
    assertEquals(
        List.of(alerts.get(4), alerts.get(3)),
        read(database -> new AlertRecords(database).history(two)));
    AlertFilter none = new AlertFilter(null, null, START.plusSeconds(600), 9);
    assertEquals(List.of(), read(database -> new AlertRecords(database).history(none)));
    Span after = new Span(later.plusSeconds(1), later.plusSeconds(2));
    assertEquals(
        List.of(4L, 3L),
        read(database -> new AlertRecords(database).overlapping(KEY, after)).stream()
            .map(Alert::id)
            .toList());
  }

  @Test
  void transitionsConditionsAndDecisionsSurviveARestart() {
    Condition outside = new Condition(START, true, START.plusSeconds(5), START, 27.5);
    Condition inside = new Condition(null, false, null, START, Double.NaN);
    AlertKey light = new AlertKey(BAG, AlertKind.LIGHT);
    Transition service =
        new Transition(
            0,
            null,
            KEY,
            Transition.What.OUT_OF_SERVICE,
            START,
            START,
            "Ada",
            "on mains",
            List.of());
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          AlertRecords records = new AlertRecords(database);
          records.record(alert(1, null, null), outside, raised(1));
          records.record(null, null, service);
          records.record(alert(2, null, null), outside, raised(2));
          records.save(List.of(), Map.of(light, inside));
          new AlertRuleRecords(database).put(KEY, DECISION);
        });

    assertEquals(
        List.of(raised(2).numbered(3)),
        read(database -> new AlertRecords(database).transitions(2)));
    assertEquals(
        List.of(raised(2).numbered(3)),
        read(database -> new AlertRecords(database).transitionsAfter(1, 10)));
    assertEquals(
        List.of(service.numbered(2)),
        read(database -> new AlertRecords(database).serviceChanges(BAG, 10)));
    assertEquals(
        Map.of(KEY, outside, light, inside),
        read(database -> new AlertRecords(database).conditions()));
    assertEquals(
        Map.of(KEY, DECISION), read(database -> new AlertRuleRecords(database).decisions()));
  }

  @Test
  void eachRaisingThatLastedIntoASpanIsFound() {
    Instant raised = raised(1).at();
    Instant later = raised.plusSeconds(300);
    Instant again = raised.plusSeconds(600);
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          AlertRecords records = new AlertRecords(database);
          records.record(alert(1, null, null), null, raised(1));
          records.record(alert(1, later, null), null, at(Transition.What.RETURNED, later));
          records.record(alert(1, null, null), null, at(Transition.What.RAISED, again));
        });
    RaisedAlert first = new RaisedAlert(KEY.container(), KEY.kind(), raised, later);
    RaisedAlert second = new RaisedAlert(KEY.container(), KEY.kind(), again, null);
    assertEquals(List.of(first, second), raised(new Span(later, again.plusMillis(1))));
    assertEquals(List.of(second), raised(new Span(later.plusMillis(1), again.plusMillis(1))));
    assertEquals(List.of(first), raised(new Span(later, again)));
    assertEquals(List.of(), raised(new Span(START.minusSeconds(60), raised)));
  }

  private List<RaisedAlert> raised(Span span) {
    return read(database -> new AlertRecords(database).raised(span));
  }

  private static Transition at(Transition.What what, Instant at) {
    return new Transition(0, 1L, KEY, what, at, at, null, null, List.of());
  }

  @Test
  void onlyTheNewestThousandRejectsAreKeptAndTheirNumbersGoOn() {
    List<Reject> rejects =
        IntStream.rangeClosed(1, 1_500)
            .mapToObj(
                i ->
                    Reject.of(
                        START.plusMillis(i), "tepidarium/x", RejectCode.JSON, "reason " + i, "{"))
            .toList();
    change(database -> new RejectRecords(database).add(rejects.subList(0, 700)));
    change(database -> new RejectRecords(database).add(rejects.subList(700, 1_500)));

    List<RejectLog.Line> lines = read(database -> new RejectRecords(database).newest(2_000));
    assertEquals(1_000, lines.size());
    assertEquals(new RejectLog.Line(1_500, rejects.get(1_499)), lines.get(0));
    assertEquals(new RejectLog.Line(501, rejects.get(500)), lines.get(999));

    change(database -> new RejectRecords(database).add(rejects.subList(0, 1)));
    assertEquals(1_501, read(database -> new RejectRecords(database).newest(1)).get(0).number());
  }

  @Test
  void theGerminationRecordSurvivesARestart() {
    List<Species> shipped = read(database -> new GerminationRecords(database).species());
    assertEquals(3, shipped.size());
    Species own = new Species("own", "Own", Map.of(Trait.BASE, new Figure(11.5, "own results")));
    LotDetails details =
        new LotDetails(
            "own", "Lot ü", 40, START, Origin.GROUND, "row 3", "sawdust", "wet", "AC 12/7");
    Lot lot = new Lot(1, details);
    GroupId group = new GroupId(1, 1);
    List<Entry> entries =
        List.of(
            entry(new Act.Sown(1, "first", List.of(new Act.Part(group, BAG, 40))), null),
            entry(new Act.Moved(group, BAG, 3, null, new GroupId(1, 2), null), null),
            entry(new Act.Survival(group, 0), null),
            entry(new Act.Named(group, "north"), null),
            entry(new Act.Named(null, null), null));
    Culled culled = new Culled(1, CullReason.MOULD, true);
    Entry check = entry(new Act.Checked(group, 3, List.of(culled), 1, List.of(2.5)), null);
    Entry withdrawal = entry(new Act.Withdrawn(), check.id());
    change(
        database -> {
          GerminationRecords records = new GerminationRecords(database);
          records.putSpecies(List.of(own));
          records.putLots(List.of(new Lot(1, details), lot));
          records.append(entries);
          records.append(List.of(check, withdrawal));
          records.putPhoto(check.id(), new Photo(new byte[] {-1, -40, -1, 7}));
          assertThrows(StoreException.class, () -> records.append(List.of(withdrawal)));
          assertThrows(StoreException.class, () -> records.removeSpecies("own"));
          records.removeSpecies("cacao");
        });

    List<Species> species = read(database -> new GerminationRecords(database).species());
    assertEquals(3, species.size());
    assertTrue(species.contains(own));
    assertEquals(List.of(lot), read(database -> new GerminationRecords(database).lots()));
    List<Entry> all = new ArrayList<>(entries);
    all.addAll(List.of(check, withdrawal));
    assertEquals(all, read(database -> new GerminationRecords(database).entries()));
    assertEquals(
        List.of(check.id()), read(database -> new GerminationRecords(database).photographed()));
    Photo photo =
        read(database -> new GerminationRecords(database).photo(check.id())).orElseThrow();
    assertEquals("image/jpeg", photo.mediaType());
    assertEquals(4, photo.bytes().length);
  }

  private static Entry entry(Act act, @Nullable UUID corrects) {
    String reason = corrects == null ? null : "a mistake";
    UUID id = UUID.randomUUID();
    return new Entry(id, 1, START, act, START, "Ida", "a\nb", corrects, reason, "digest");
  }

  @Test
  void keptSeasonsSurviveARestartAndNoNameIsTakenTwice() {
    Span spring = new Span(START, START.plus(Duration.ofDays(60)));
    Span later = new Span(spring.to(), spring.to().plus(Duration.ofDays(60)));
    String report = "{\"lessons\":[\"Größe 🌱\"]}";
    SeasonStore.NewSeason first =
        new SeasonStore.NewSeason(" Frühling ", spring, spring.to(), " ", report);
    SeasonStore.NewSeason second =
        new SeasonStore.NewSeason("Summer", later, later.to(), "hot", report);
    StoredSeason kept = read(database -> new SeasonRecords(database).add(first)).orElseThrow();
    assertEquals(new StoredSeason(1, "Frühling", spring, spring.to(), null, report), kept);
    SeasonStore.NewSeason again =
        new SeasonStore.NewSeason("FRÜHLING", later, later.to(), null, report);
    assertTrue(read(database -> new SeasonRecords(database).add(again)).isEmpty());
    StoredSeason summer = read(database -> new SeasonRecords(database).add(second)).orElseThrow();
    assertEquals(List.of(summer, kept), read(database -> new SeasonRecords(database).seasons()));
    assertEquals(
        kept, read(database -> new SeasonRecords(database).season(kept.id())).orElseThrow());
    assertEquals(true, read(database -> new SeasonRecords(database).remove(kept.id())));
    assertEquals(false, read(database -> new SeasonRecords(database).remove(kept.id())));
    assertTrue(read(database -> new SeasonRecords(database).season(kept.id())).isEmpty());
    assertTrue(read(database -> new SeasonRecords(database).add(again)).isPresent());
  }

  @Test
  void savedMappingRulesSurviveARestartUntilTheyAreDeleted() {
    MappingRule rule =
        new MappingRule(
            "field/{sensor}/up",
            new MappedValue("", "°F", 2, 2, "little", true, 0.01, -40.0),
            new MappedValue("/h", "fraction"),
            null,
            null,
            null,
            null,
            "/at",
            new MappedBytes("/data", "base64"));
    MappingStore.Saved first = read(database -> new MappingRecords(database).add(rule, START));
    MappingRule plain =
        new MappingRule(
            "{sensor}/x", null, null, new MappedValue("", null), null, null, null, null);
    MappingStore.Saved second = read(database -> new MappingRecords(database).add(plain, START));
    assertEquals(new MappingStore.Saved(first.id(), START, rule), first);
    assertEquals(List.of(first, second), read(database -> new MappingRecords(database).all()));
    assertEquals(true, read(database -> new MappingRecords(database).remove(first.id())));
    assertEquals(false, read(database -> new MappingRecords(database).remove(first.id())));
    assertEquals(List.of(second), read(database -> new MappingRecords(database).all()));
  }

  @Test
  void accountsOfSensorsSurviveARestart() {
    SensorAccount jar = new SensorAccount("jar", "hash", List.of("a/#", "b"), List.of(), START);
    SensorAccount lamp = new SensorAccount("lamp", "h", List.of(), List.of("c"), START);
    change(database -> new SensorAccountRecords(database).add(lamp));
    change(database -> new SensorAccountRecords(database).add(jar));
    assertEquals(List.of(jar, lamp), read(database -> new SensorAccountRecords(database).all()));
    SensorAccount changed = new SensorAccount("jar", "other", List.of("a/#"), List.of("d"), START);
    change(database -> new SensorAccountRecords(database).change(changed));
    change(database -> new SensorAccountRecords(database).remove("lamp"));
    assertEquals(List.of(changed), read(database -> new SensorAccountRecords(database).all()));
  }

  @Test
  void whoNeedsNoAccountIsDecidedOnce() {
    for (AnonymousSensors later : AnonymousSensors.values()) {
      assertEquals(
          AnonymousSensors.NEVER,
          read(
              database ->
                  new SensorAccountRecords(database)
                      .anonymous(
                          () -> later == AnonymousSensors.values()[0] ? later : fail("again"))));
    }
  }

  @Test
  void dayExtremesAreOneADayAndGoWithTheirContainer() {
    LocalDate first = LocalDate.parse("2026-02-27");
    DayExtremes corrected = new DayExtremes(first, 18.5, 31);
    DayExtremes next = new DayExtremes(first.plusDays(1), -3, 12.25);
    change(
        database -> {
          new ContainerRecords(database).put(bag("Bag"));
          DayExtremesRecords days = new DayExtremesRecords(database);
          days.put(BAG, next);
          days.put(BAG, new DayExtremes(first, 1, 2));
          days.put(BAG, corrected);
        });
    assertEquals(
        List.of(corrected, next), read(database -> new DayExtremesRecords(database).days(BAG)));
    assertEquals(
        List.of(),
        read(database -> new DayExtremesRecords(database).days(new ContainerId("other"))));
    assertEquals(true, read(database -> new DayExtremesRecords(database).remove(BAG, first)));
    assertEquals(false, read(database -> new DayExtremesRecords(database).remove(BAG, first)));
    assertEquals(List.of(next), read(database -> new DayExtremesRecords(database).days(BAG)));
    change(database -> new ContainerRecords(database).remove(BAG));
    assertEquals(List.of(), read(database -> new DayExtremesRecords(database).days(BAG)));
  }

  @Test
  void aTransactionInsideAnotherTakesPartInIt() {
    change(
        database -> {
          ContainerRecords containers = new ContainerRecords(database);
          assertThrows(
              IllegalStateException.class,
              () ->
                  database.transaction(
                      handle -> {
                        containers.put(bag("Bag"));
                        assertEquals(1, containers.containers().size());
                        throw new IllegalStateException("as planned");
                      }));
          assertEquals(List.of(), containers.containers());
        });
  }

  @Test
  void aFailureUndoesTheWholeTransaction() {
    change(
        database -> {
          assertThrows(
              IllegalStateException.class,
              () ->
                  database.transaction(
                      handle -> {
                        handle.execute(
                            "INSERT INTO reject (at_ms, topic, reason, payload)"
                                + " VALUES (1, 'a', 'b', 'c')");
                        throw new IllegalStateException("as planned");
                      }));
          assertEquals(List.of(), new RejectRecords(database).newest(1));
        });
  }
}
