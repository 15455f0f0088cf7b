package tepidarium.web.sensors;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Clock;
import java.time.Instant;
import java.util.Set;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.calibration.CalibrationRules;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Routes for sensors, their placement and their calibration. */
public final class SensorRoutes {
  private final Register register;
  private final SensorViews views;
  private final Clock clock;

  public SensorRoutes(Register register, SensorViews views, Clock clock) {
    this.register = register;
    this.views = views;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/sensors", this::list);
    routes.get("/api/sensors/{sensor}", ctx -> ctx.json(views.existing(Params.sensorId(ctx))));
    routes.put("/api/sensors/{sensor}/placement", this::place);
    routes.put("/api/sensors/{sensor}/details", this::describe);
    routes.put("/api/sensors/{sensor}/calibration", this::calibrate);
    routes.get("/api/sensors/{sensor}/calibration-points", this::points);
    routes.post("/api/sensors/{sensor}/calibration-points", this::addPoint);
    routes.get("/api/sensors/{sensor}/settling", this::settling);
    routes.delete("/api/sensors/{sensor}/calibration-points/{point}", this::removePoint);
  }

  private void list(Context ctx) {
    boolean activity = Params.flag(ctx, "activity", true);
    boolean outside = Params.flag(ctx, "outside", false);
    Set<SensorId> wanted = outside ? views.outside(clock.instant()) : views.all();
    ContainerId place = ContainerName.read(ctx.queryParam("container"));
    if (place != null) {
      wanted.retainAll(views.inside(place, clock.instant()));
    }
    ctx.json(views.sensors(wanted, activity));
  }

  private void place(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    SensorJson.PlacementRequest request = Params.body(ctx, SensorJson.PlacementRequest.class);
    String from = request.from();
    String until = request.until();
    Instant start = from == null ? clock.instant() : Params.instant("from", from);
    if (start.isBefore(Reading.EARLIEST)) {
      // An earlier start would create an unbounded number of hourly rows.
      throw new InvalidInput(
          "from",
          "must not lie before 2010, as no reading does",
          InputRule.TOO_EARLY.with(Reading.EARLIEST));
    }
    Instant end = until == null ? null : Params.instant("until", until);
    register.place(sensor, ContainerName.read(request.container()), start, end);
    ctx.json(views.sensor(sensor));
  }

  private void describe(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    views.existing(sensor);
    SensorJson.DetailsRequest request = Params.body(ctx, SensorJson.DetailsRequest.class);
    views.change(sensor, request::over);
    ctx.json(views.existing(sensor));
  }

  private void calibrate(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    SensorJson.CalibrationRequest request = Params.body(ctx, SensorJson.CalibrationRequest.class);
    register.calibrate(sensor, request.over(register.calibration(sensor)));
    ctx.json(views.sensor(sensor));
  }

  private void points(Context ctx) {
    ctx.json(views.calibration(Params.sensorId(ctx), clock.instant()));
  }

  private void addPoint(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    views.existing(sensor);
    Instant now = clock.instant();
    CalibrationPoint point =
        Params.body(ctx, CalibrationJson.PointRequest.class).point(sensor, now);
    CalibrationRules.checkTime(point, views.firstHeard(sensor), now);
    register.addCalibrationPoint(point, now);
    ctx.status(HttpStatus.CREATED).json(views.calibration(sensor, now));
  }

  private void settling(Context ctx) {
    Quantity quantity = Params.quantity(ctx.queryParam("quantity"));
    ctx.json(views.settling(Params.sensorId(ctx), quantity, clock.instant()));
  }

  private void removePoint(Context ctx) {
    SensorId sensor = Params.sensorId(ctx);
    long id = Params.id(ctx, "point");
    if (!register.removeCalibrationPoint(sensor, id, clock.instant())) {
      throw new NotFound("the sensor \"" + sensor + "\" has no calibration point " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }
}
