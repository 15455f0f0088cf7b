package tepidarium.web.files;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.Guess;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportJob;
import tepidarium.importing.ImportJobs;
import tepidarium.importing.ImportTexts;
import tepidarium.reading.Quantity;
import tepidarium.web.JsonValues;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.ReadingJson;
import tepidarium.web.pages.ReaderLanguage;

/** Takes files of other loggers: upload, preview, start, stop, and the rejected rows. */
public final class ImportRoutes {
  /** The path of uploads, whose bodies may be large. */
  public static final String PATH = "/api/imports";

  private final ImportJobs jobs;

  public ImportRoutes(ImportJobs jobs) {
    this.jobs = jobs;
  }

  record ImportJson(
      long id,
      String name,
      String state,
      int percent,
      long line,
      long stored,
      long repeated,
      long rejected,
      List<String> notes,
      @Nullable String problem) {
    static ImportJson of(long id, ImportJob job) {
      ImportJob.Progress now = job.progress();
      return new ImportJson(
          id,
          job.name(),
          JsonValues.lower(now.state()),
          now.percent(),
          now.line(),
          now.stored(),
          now.repeated(),
          now.rejected(),
          now.notes(),
          now.problem());
    }
  }

  record RowJson(
      long line,
      @Nullable String sensor,
      @Nullable Instant at,
      Map<String, Double> values,
      @Nullable String rejected) {
    static RowJson of(ImportJob.Row row) {
      if (row.reading() == null) {
        return new RowJson(row.line(), null, null, Map.of(), row.rejected());
      }
      ReadingJson reading = ReadingJson.of(row.reading());
      return new RowJson(
          row.line(), reading.sensor(), reading.at(), reading.values(), row.rejected());
    }
  }

  /**
   * A preview.
   *
   * @param units the stored unit of each quantity
   */
  record PreviewJson(List<Guess> guesses, List<RowJson> rows, Map<String, String> units) {
    static PreviewJson of(ImportJob.Preview preview) {
      Map<String, String> units = new LinkedHashMap<>();
      for (Quantity quantity : Quantity.values()) {
        units.put(quantity.key(), quantity.unit());
      }
      return new PreviewJson(
          preview.guesses(), preview.rows().stream().map(RowJson::of).toList(), units);
    }
  }

  record Imports(List<ImportJson> imports) {}

  public void add(RoutesConfig routes) {
    routes.get(PATH, ctx -> ctx.json(imports()));
    routes.post(PATH, this::upload);
    routes.post(PATH + "/{import}/preview", this::preview);
    routes.post(PATH + "/{import}/start", this::start);
    routes.post(PATH + "/{import}/stop", this::stop);
    routes.get(PATH + "/{import}/rejected.csv", this::rejected);
    routes.delete(PATH + "/{import}", this::remove);
  }

  private Imports imports() {
    return new Imports(
        jobs.all().entrySet().stream()
            .map(entry -> ImportJson.of(entry.getKey(), entry.getValue()))
            .toList());
  }

  private void upload(Context ctx) throws IOException {
    String name = ctx.queryParam("name");
    long length = ctx.req().getContentLengthLong();
    long id = jobs.upload(name == null ? "" : name, length, ctx.bodyInputStream());
    ctx.status(HttpStatus.CREATED).json(ImportJson.of(id, job(id)));
  }

  private ImportJob job(long id) {
    ImportJob job = jobs.job(id);
    if (job == null) {
      throw new NotFound("there is no import " + id);
    }
    return job;
  }

  private static long id(Context ctx) {
    return Params.id(ctx, "import");
  }

  private static ImportTexts texts(Context ctx) {
    return ImportTexts.fields(Locale.forLanguageTag(ReaderLanguage.of(ctx)));
  }

  private void preview(Context ctx) {
    ImportChoices choices = Params.body(ctx, ImportChoices.class);
    ctx.json(PreviewJson.of(jobs.preview(job(id(ctx)), choices, texts(ctx))));
  }

  private void start(Context ctx) {
    long id = id(ctx);
    ImportChoices choices = Params.body(ctx, ImportChoices.class);
    jobs.start(job(id), choices, texts(ctx));
    ctx.json(ImportJson.of(id, job(id)));
  }

  private void stop(Context ctx) {
    long id = id(ctx);
    job(id).stop();
    ctx.json(ImportJson.of(id, job(id)));
  }

  private void rejected(Context ctx) throws IOException {
    ImportJob job = job(id(ctx));
    if (!Files.exists(job.rejectedFile())) {
      throw new NotFound("no row of " + job.name() + " was rejected");
    }
    ctx.header("Content-Disposition", "attachment; filename=\"rejected.csv\"");
    ctx.contentType("text/csv; charset=utf-8; header=present")
        .result(Files.newInputStream(job.rejectedFile()));
  }

  private void remove(Context ctx) throws IOException {
    long id = id(ctx);
    if (!jobs.remove(id)) {
      throw new NotFound("there is no import " + id);
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }
}
