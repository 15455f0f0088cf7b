package tepidarium.web.files;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Semaphore;
import org.eclipse.jetty.ee10.servlet.ServletContextRequest;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.container.ContainerId;
import tepidarium.exporting.ExportFormat;
import tepidarium.exporting.ExportOptions;
import tepidarium.exporting.ReadingExport;
import tepidarium.reading.InputRule;
import tepidarium.reading.SensorId;
import tepidarium.web.Params;
import tepidarium.web.Refused;

/** Sends stored readings as a file, in pieces as they are read from the store. */
public final class ExportRoutes {
  private static final Logger LOG = LoggerFactory.getLogger(ExportRoutes.class);

  /** An export keeps the store busy, so few run at a time. */
  private static final int MAX_AT_A_TIME = 3;

  private final ReadingExport export;
  private final Semaphore free = new Semaphore(MAX_AT_A_TIME);

  public ExportRoutes(ReadingExport export) {
    this.export = export;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/export/readings", this::readings);
    routes.get("/api/export/check", this::check);
  }

  /** Checks an export without sending it, because a browser cannot show why a download fails. */
  private void check(Context ctx) {
    export.check(options(ctx));
    if (free.availablePermits() == 0) {
      throw tooMany();
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private static Refused tooMany() {
    return new Refused(
        HttpStatus.TOO_MANY_REQUESTS,
        MAX_AT_A_TIME + " exports are running. Try again when one has ended.",
        InputRule.BUSY.with());
  }

  private void readings(Context ctx) throws IOException {
    ExportOptions options = options(ctx);
    export.check(options);
    if (!free.tryAcquire()) {
      throw tooMany();
    }
    try {
      ctx.header("Content-Disposition", "attachment; filename=\"" + options.fileName() + '"');
      ctx.contentType(options.format().mediaType());
      send(ctx, options);
    } finally {
      free.release();
    }
  }

  /**
   * Writes the readings to the client. If the store fails in between, breaks the connection off.
   * Otherwise the client would take the part for the whole.
   */
  private void send(Context ctx, ExportOptions options) throws IOException {
    Writer writer =
        new BufferedWriter(new OutputStreamWriter(ctx.outputStream(), StandardCharsets.UTF_8));
    try {
      export.write(options, writer);
      writer.flush();
    } catch (RuntimeException e) {
      if (!ctx.res().isCommitted()) {
        throw e;
      }
      LOG.warn("an export was broken off: {}", e.getMessage());
      ServletContextRequest.getServletContextRequest(ctx.req())
          .getConnectionMetaData()
          .getConnection()
          .getEndPoint()
          .close(e);
    }
  }

  private static ExportOptions options(Context ctx) {
    String format = text(ctx, "format");
    String sensor = text(ctx, "sensor");
    String container = text(ctx, "container");
    return new ExportOptions(
        format == null ? ExportFormat.CSV : ExportFormat.of(format),
        Params.instant(ctx, "from"),
        Params.instant(ctx, "to"),
        sensor == null ? null : new SensorId(sensor),
        container == null ? null : new ContainerId(container),
        Params.flag(ctx, "calibrated", false));
  }

  /** A parameter; null if it is missing or blank. */
  private static @Nullable String text(Context ctx, String name) {
    String text = ctx.queryParam(name);
    return text == null || text.isBlank() ? null : text.strip();
  }
}
