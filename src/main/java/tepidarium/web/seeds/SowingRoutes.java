package tepidarium.web.seeds;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Act;
import tepidarium.germination.Entry;
import tepidarium.germination.GroupId;
import tepidarium.germination.Note;
import tepidarium.germination.Photo;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Sowing;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.seeds.SeedRequests.CheckBody;
import tepidarium.web.seeds.SeedRequests.CorrectionBody;
import tepidarium.web.seeds.SeedRequests.MoveBody;
import tepidarium.web.seeds.SeedRequests.NameBody;
import tepidarium.web.seeds.SeedRequests.SowingBody;
import tepidarium.web.seeds.SeedRequests.SurvivalBody;
import tepidarium.web.seeds.SeedRequests.WithdrawalBody;

/** Routes for sowings and for the entries of the seed journal. */
public final class SowingRoutes {
  private final SeedJournal journal;
  private final SeedViews seeds;

  public SowingRoutes(SeedJournal journal, SeedViews seeds) {
    this.journal = journal;
    this.seeds = seeds;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/sowings", this::list);
    routes.post("/api/sowings", this::sow);
    routes.get("/api/sowings/{sowing}", this::show);
    routes.get("/api/sowings/{sowing}/entries", this::entries);
    routes.post("/api/groups/{group}/moves", this::move);
    routes.post("/api/groups/{group}/checks", this::check);
    routes.post("/api/groups/{group}/survival", this::survival);
    routes.post("/api/groups/{group}/name", this::nameGroup);
    routes.post("/api/sowings/{sowing}/name", this::nameSowing);
    routes.post("/api/entries/{entry}/correction", this::correct);
    routes.post("/api/entries/{entry}/withdrawal", this::withdraw);
    routes.put("/api/entries/{entry}/photo", this::putPhoto);
    routes.get("/api/entries/{entry}/photo", this::photo);
  }

  private Sowing existing(Context ctx) {
    return seeds.existing(Params.id(ctx, "sowing"));
  }

  private void list(Context ctx) {
    ctx.json(journal.sowings().stream().map(seeds::sowing).toList());
  }

  private void show(Context ctx) {
    ctx.json(seeds.sowing(existing(ctx)));
  }

  private void entries(Context ctx) {
    Sowing sowing = existing(ctx);
    ctx.json(seeds.entries(sowing));
  }

  private void sow(Context ctx) {
    SowingBody body = Params.body(ctx, SowingBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    Entry entry;
    try {
      entry = journal.sow(body.lotNumber(), body.name(), body.portions(), note);
    } catch (NoSuchElementException e) {
      throw new InvalidInput(String.valueOf(e.getMessage()), e);
    }
    ctx.header("Location", "/api/sowings/" + entry.sowing());
    written(ctx, entry);
  }

  private void written(Context ctx, Entry entry) {
    ctx.status(HttpStatus.CREATED).json(seeds.answer(entry));
  }

  private void move(Context ctx) {
    GroupId group = SeedParams.group(ctx);
    MoveBody body = Params.body(ctx, MoveBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    written(ctx, NotFound.ifMissing(() -> journal.move(group, body.read(), note)));
  }

  private void check(Context ctx) {
    GroupId group = SeedParams.group(ctx);
    CheckBody body = Params.body(ctx, CheckBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    written(ctx, NotFound.ifMissing(() -> journal.add(body.read(group), note)));
  }

  private void survival(Context ctx) {
    GroupId group = SeedParams.group(ctx);
    SurvivalBody body = Params.body(ctx, SurvivalBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    written(ctx, NotFound.ifMissing(() -> journal.add(body.read(group), note)));
  }

  private void nameGroup(Context ctx) {
    GroupId group = SeedParams.group(ctx);
    NameBody body = Params.body(ctx, NameBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    Act.Named act = new Act.Named(group, body.name());
    written(ctx, NotFound.ifMissing(() -> journal.add(act, note)));
  }

  private void nameSowing(Context ctx) {
    long sowing = Params.id(ctx, "sowing");
    NameBody body = Params.body(ctx, NameBody.class);
    Note note = SeedRequests.note(ctx, body, seeds.now());
    Act.Named act = new Act.Named(null, body.name());
    written(ctx, NotFound.ifMissing(() -> journal.name(sowing, act, note)));
  }

  private Entry existing(UUID id) {
    return journal.entry(id).orElseThrow(() -> new NotFound("there is no entry " + id));
  }

  private void correct(Context ctx) {
    Entry old = existing(SeedParams.entry(ctx));
    CorrectionBody body = Params.body(ctx, CorrectionBody.class);
    SeedRequests.Written done = body.done();
    String reason = reason(body.reason());
    Note note =
        SeedRequests.note(ctx, body.entry(), done.at(), body.by(), done.remark(), seeds.now());
    written(ctx, corrected(old, body, reason, note));
  }

  private static String reason(@Nullable String reason) {
    return reason == null || reason.isBlank() ? "no reason given" : reason;
  }

  private Entry corrected(Entry old, CorrectionBody body, String reason, Note note) {
    SowingBody sowing = body.sowing();
    MoveBody move = body.move();
    if (sowing != null) {
      return journal.correctSowing(
          old.id(), sowing.lotNumber(), sowing.name(), sowing.portions(), reason, note);
    }
    if (move != null) {
      return journal.correctMove(old.id(), move.read(), reason, note);
    }
    return journal.correct(
        old.id(),
        was -> {
          GroupId group = was.act().group();
          if (group == null) {
            throw new InvalidInput("that entry is not a check; its kind is " + was.act().kind());
          }
          CheckBody check = body.check();
          SurvivalBody survival = body.survival();
          return check != null
              ? check.read(group)
              : SeedRequests.needed("survival", survival).read(group);
        },
        reason,
        note);
  }

  private void withdraw(Context ctx) {
    Entry old = existing(SeedParams.entry(ctx));
    WithdrawalBody body = Params.body(ctx, WithdrawalBody.class);
    Note note = SeedRequests.note(ctx, body.entry(), null, body.by(), null, seeds.now());
    written(ctx, journal.withdraw(old.id(), reason(body.reason()), note));
  }

  private void putPhoto(Context ctx) {
    Entry entry = existing(SeedParams.entry(ctx));
    journal.putPhoto(entry.id(), new Photo(ctx.bodyAsBytes()));
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private void photo(Context ctx) {
    Entry entry = existing(SeedParams.entry(ctx));
    Optional<Photo> photo = journal.photo(entry.id());
    if (photo.isEmpty()) {
      throw new NotFound("entry " + entry.id() + " has no photo");
    }
    ctx.contentType(photo.get().mediaType()).result(photo.get().bytes());
  }
}
