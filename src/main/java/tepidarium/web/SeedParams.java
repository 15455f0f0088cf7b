package tepidarium.web;

import io.javalin.http.Context;
import java.util.UUID;
import tepidarium.germination.GroupId;
import tepidarium.reading.InvalidInput;

/** Reads names of seed things out of an address; what cannot be one is not found. */
final class SeedParams {
  private SeedParams() {}

  static long number(Context ctx, String name) {
    String text = ctx.pathParam(name);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw new NotFound("there is no " + name + " \"" + text + '"');
    }
  }

  static GroupId group(Context ctx) {
    try {
      return GroupId.parse(ctx.pathParam("group"));
    } catch (InvalidInput e) {
      throw new NotFound(e.getMessage());
    }
  }

  static UUID entry(Context ctx) {
    String text = ctx.pathParam("entry");
    try {
      return UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw new NotFound("there is no entry \"" + text + '"');
    }
  }
}
