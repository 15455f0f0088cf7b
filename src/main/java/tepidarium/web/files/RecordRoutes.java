package tepidarium.web.files;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Semaphore;
import tepidarium.exchange.RecordExchange;
import tepidarium.exchange.RecordZip;
import tepidarium.exchange.Table;
import tepidarium.reading.InputRule;
import tepidarium.web.NotFound;
import tepidarium.web.Refused;

/** Routes for the export and import of the record, table by table or as one zip file. */
public final class RecordRoutes {
  /** Takes a zip file, which may be larger than other bodies. */
  public static final String PATH = "/api/record";

  private final RecordExchange exchange;
  private final Clock clock;

  /** One zip file at a time, because all of it is in memory. */
  private final Semaphore reading = new Semaphore(1);

  record TakenJson(String table, int rows, int added) {
    static TakenJson of(RecordExchange.Taken taken) {
      return new TakenJson(taken.table().key(), taken.rows(), taken.added());
    }
  }

  record RecordAnswer(List<TakenJson> tables) {}

  public RecordRoutes(RecordExchange exchange, Clock clock) {
    this.exchange = exchange;
    this.clock = clock;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/export/{table}.csv", this::exportTable);
    routes.post("/api/import/{table}", this::importTable);
    routes.get("/api/record.zip", this::exportRecord);
    routes.post(PATH, this::importRecord);
  }

  private static Table table(Context ctx) {
    Table table = Table.named(ctx.pathParam("table"));
    if (table == null) {
      throw new NotFound("the tables are " + String.join(", ", Table.names()));
    }
    return table;
  }

  private void exportTable(Context ctx) {
    Table table = table(ctx);
    ctx.header("Content-Disposition", "attachment; filename=\"" + table.key() + ".csv\"");
    ctx.contentType("text/csv; charset=utf-8; header=present").result(exchange.write(table));
  }

  private void importTable(Context ctx) {
    Table table = table(ctx);
    String csv = new String(ctx.bodyAsBytes(), StandardCharsets.UTF_8);
    ctx.json(TakenJson.of(exchange.read(table, csv, clock.instant())));
  }

  private void exportRecord(Context ctx) throws IOException {
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    RecordZip.write(exchange.writeAll(), zip);
    ctx.header("Content-Disposition", "attachment; filename=\"tepidarium-record.zip\"");
    ctx.contentType("application/zip").result(zip.toByteArray());
  }

  private void importRecord(Context ctx) throws IOException {
    if (!reading.tryAcquire()) {
      // An answer before the end of the body could be lost when the connection closes.
      ctx.req().getInputStream().skip(RecordZip.MAX_BYTES);
      throw new Refused(
          HttpStatus.CONFLICT,
          "another zip file is being imported. Try again when it is done",
          InputRule.BUSY.with());
    }
    try {
      ctx.json(new RecordAnswer(imported(ctx.req().getInputStream())));
    } finally {
      reading.release();
    }
  }

  private List<TakenJson> imported(InputStream in) throws IOException {
    byte[] zip = in.readNBytes(RecordZip.MAX_BYTES + 1);
    if (zip.length > RecordZip.MAX_BYTES) {
      throw new ContentTooLargeResponse();
    }
    List<RecordExchange.Taken> taken = exchange.readAll(RecordZip.read(zip), clock.instant());
    return taken.stream().map(TakenJson::of).toList();
  }
}
