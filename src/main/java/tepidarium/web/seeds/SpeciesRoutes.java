package tepidarium.web.seeds;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.NoSuchElementException;
import tepidarium.germination.Lot;
import tepidarium.germination.LotDetails;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.Species;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;
import tepidarium.web.Params;

/** Routes for species profiles and seed lots. */
public final class SpeciesRoutes {
  private final SeedJournal journal;
  private final SowingFinder sowings;
  private final SeedViews seeds;

  public SpeciesRoutes(SeedJournal journal, SowingFinder sowings, SeedViews seeds) {
    this.journal = journal;
    this.sowings = sowings;
    this.seeds = seeds;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/species", this::list);
    routes.post("/api/species", this::create);
    routes.put("/api/species/{species}", this::change);
    routes.delete("/api/species/{species}", this::remove);
    routes.get("/api/species/{species}/viability", this::viability);
    routes.get("/api/lots", this::lots);
    routes.post("/api/lots", this::addLot);
    routes.get("/api/lots/{lot}", this::showLot);
    routes.put("/api/lots/{lot}", this::changeLot);
  }

  private void list(Context ctx) {
    ctx.json(journal.species().all().stream().map(SeedJson.SpeciesJson::of).toList());
  }

  private void create(Context ctx) {
    SeedRequests.SpeciesBody body = Params.body(ctx, SeedRequests.SpeciesBody.class);
    Species added = journal.species().add(body.named(), body.read());
    ctx.status(HttpStatus.CREATED)
        .header("Location", "/api/species/" + added.id())
        .json(SeedJson.SpeciesJson.of(added));
  }

  private void change(Context ctx) {
    String id = ctx.pathParam("species");
    NotFound.ifMissing(() -> journal.species().existing(id));
    SeedRequests.SpeciesBody body = Params.body(ctx, SeedRequests.SpeciesBody.class);
    ctx.json(SeedJson.SpeciesJson.of(journal.species().change(id, body.named(), body.read())));
  }

  private void remove(Context ctx) {
    String id = ctx.pathParam("species");
    NotFound.ifMissing(() -> journal.species().existing(id));
    journal.removeSpecies(id);
    ctx.status(HttpStatus.NO_CONTENT);
  }

  private void viability(Context ctx) {
    String id = ctx.pathParam("species");
    Species species = NotFound.ifMissing(() -> journal.species().existing(id));
    ctx.json(ViabilityJson.of(species.id(), sowings.viability(species)));
  }

  private void lots(Context ctx) {
    ctx.json(seeds.lots());
  }

  private LotDetails details(Context ctx) {
    LotDetails details = Params.body(ctx, SeedRequests.LotBody.class).read();
    try {
      journal.species().existing(details.species());
      return details;
    } catch (NoSuchElementException e) {
      throw new InvalidInput(String.valueOf(e.getMessage()), e);
    }
  }

  private void addLot(Context ctx) {
    Lot lot = journal.lots().add(details(ctx), seeds.now());
    ctx.status(HttpStatus.CREATED).header("Location", "/api/lots/" + lot.id()).json(seeds.lot(lot));
  }

  private Lot existing(Context ctx) {
    long id = Params.id(ctx, "lot");
    return journal.lots().find(id).orElseThrow(() -> new NotFound("there is no seed lot " + id));
  }

  private void showLot(Context ctx) {
    ctx.json(seeds.lot(existing(ctx)));
  }

  private void changeLot(Context ctx) {
    long id = existing(ctx).id();
    ctx.json(seeds.lot(journal.lots().change(id, details(ctx), seeds.now())));
  }
}
