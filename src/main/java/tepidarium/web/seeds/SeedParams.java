package tepidarium.web.seeds;

import io.javalin.http.Context;
import java.util.UUID;
import tepidarium.germination.GroupId;
import tepidarium.reading.InvalidInput;
import tepidarium.web.NotFound;

/** Reads ids of seed groups and entries from the path; throws NotFound for an invalid id. */
public final class SeedParams {
  private SeedParams() {}

  public static GroupId group(Context ctx) {
    try {
      return GroupId.parse(ctx.pathParam("group"));
    } catch (InvalidInput e) {
      throw new NotFound(e.getMessage());
    }
  }

  public static UUID entry(Context ctx) {
    String text = ctx.pathParam("entry");
    try {
      return UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw new NotFound("there is no entry \"" + text + '"');
    }
  }
}
