package tepidarium.web.files;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.List;
import java.util.Locale;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportProfile;
import tepidarium.importing.ImportTexts;
import tepidarium.importing.ProfileStore;
import tepidarium.web.NotFound;
import tepidarium.web.Params;
import tepidarium.web.pages.ReaderLanguage;

/** Lists, saves and deletes profiles of imports. */
public final class ImportProfileRoutes {
  private static final String PATH = "/api/import-profiles";

  private final ProfileStore profiles;

  public ImportProfileRoutes(ProfileStore profiles) {
    this.profiles = profiles;
  }

  record Profiles(List<ImportProfile> profiles) {}

  public void add(RoutesConfig routes) {
    routes.get(PATH, ctx -> ctx.json(new Profiles(profiles.all())));
    routes.put(PATH + "/{profile}", this::save);
    routes.delete(PATH + "/{profile}", this::remove);
  }

  private void save(Context ctx) {
    ImportProfile profile =
        new ImportProfile(ctx.pathParam("profile"), Params.body(ctx, ImportChoices.class));
    profile.check(ImportTexts.fields(Locale.forLanguageTag(ReaderLanguage.of(ctx))));
    profiles.save(profile);
    ctx.json(profile);
  }

  private void remove(Context ctx) {
    String name = ctx.pathParam("profile");
    if (!profiles.remove(name)) {
      throw new NotFound("there is no import profile \"" + Params.shown(name) + '"');
    }
    ctx.status(HttpStatus.NO_CONTENT);
  }
}
