package tepidarium.web.seeds;

import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.germination.Act;
import tepidarium.germination.Culled;
import tepidarium.germination.Figure;
import tepidarium.germination.GroupId;
import tepidarium.germination.LotDetails;
import tepidarium.germination.MoveRequest;
import tepidarium.germination.Note;
import tepidarium.germination.Origin;
import tepidarium.germination.Portion;
import tepidarium.germination.Trait;
import tepidarium.reading.InvalidInput;
import tepidarium.web.Params;

/** The bodies of requests about seeds. */
final class SeedRequests {
  /** The header of the IETF's draft "The Idempotency-Key HTTP Header Field". */
  static final String KEY_HEADER = "Idempotency-Key";

  private SeedRequests() {}

  record FigureBody(@Nullable Double value, @Nullable String source) {}

  record SpeciesBody(@Nullable String name, @Nullable Map<String, @Nullable FigureBody> figures) {
    String named() {
      return needed("name", name);
    }

    Map<Trait, Figure> read() {
      Map<Trait, Figure> read = new EnumMap<>(Trait.class);
      Map<String, @Nullable FigureBody> bodies = figures == null ? Map.of() : figures;
      bodies.forEach(
          (key, figure) -> {
            Trait trait = Trait.ofKey(key);
            if (figure != null) {
              double value = needed(key + ".value", figure.value());
              read.put(trait, new Figure(value, needed(key + ".source", figure.source())));
            }
          });
      return read;
    }
  }

  record LotBody(
      @Nullable String species,
      @Nullable String name,
      @Nullable Integer seeds,
      @Nullable String gatheredAt,
      @Nullable String from,
      @Nullable String place,
      @Nullable String kept,
      @Nullable String remark,
      @Nullable String accession) {
    LotDetails read() {
      return new LotDetails(
          needed("species", species),
          name,
          needed("seeds", seeds),
          Params.instant("gatheredAt", needed("gatheredAt", gatheredAt)),
          Origin.ofKey(from),
          place,
          kept,
          remark,
          accession);
    }
  }

  record PortionBody(@Nullable String container, @Nullable Integer seeds) {
    Portion read() {
      return new Portion(
          new ContainerId(needed("groups.container", container)), needed("groups.seeds", seeds));
    }
  }

  /** Fields of every entry. */
  interface Written {
    @Nullable String entry();

    @Nullable String at();

    @Nullable String by();

    @Nullable String remark();
  }

  record SowingBody(
      @Nullable String entry,
      @Nullable Long lot,
      @Nullable String name,
      @Nullable List<PortionBody> groups,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark)
      implements Written {
    long lotNumber() {
      return needed("lot", lot);
    }

    List<Portion> portions() {
      return needed("groups", groups).stream().map(PortionBody::read).toList();
    }
  }

  record MoveBody(
      @Nullable String entry,
      @Nullable String to,
      @Nullable Integer ungerminated,
      @Nullable Integer germinated,
      @Nullable String joinTo,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark)
      implements Written {
    MoveRequest read() {
      return new MoveRequest(
          new ContainerId(needed("to", to)),
          ungerminated,
          germinated,
          joinTo == null ? null : GroupId.parse(joinTo));
    }
  }

  record CulledBody(
      @Nullable Integer count, @Nullable String reason, @Nullable Boolean germinated) {
    Culled read() {
      return new Culled(
          needed("culled.count", count),
          Culled.reason(needed("culled.reason", reason)),
          germinated != null && germinated);
    }
  }

  record CheckBody(
      @Nullable String entry,
      @Nullable Integer germinated,
      @Nullable List<CulledBody> culled,
      @Nullable Integer pottedOn,
      @Nullable List<Double> rootLengthsCm,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark)
      implements Written {
    Act.Checked read(GroupId group) {
      return new Act.Checked(
          group,
          germinated == null ? 0 : germinated,
          culled == null ? List.of() : culled.stream().map(CulledBody::read).toList(),
          pottedOn == null ? 0 : pottedOn,
          rootLengthsCm == null ? List.of() : rootLengthsCm);
    }
  }

  record NameBody(
      @Nullable String entry,
      @Nullable String name,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark)
      implements Written {}

  record SurvivalBody(
      @Nullable String entry,
      @Nullable Integer alive,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark)
      implements Written {
    Act.Survival read(GroupId group) {
      return new Act.Survival(group, needed("alive", alive));
    }
  }

  record WithdrawalBody(@Nullable String entry, @Nullable String reason, @Nullable String by) {}

  /** A correction of an entry; exactly one of sowing, move, check and survival is given. */
  record CorrectionBody(
      @Nullable String entry,
      @Nullable String reason,
      @Nullable String by,
      @Nullable SowingBody sowing,
      @Nullable MoveBody move,
      @Nullable CheckBody check,
      @Nullable SurvivalBody survival) {
    Written done() {
      Written done =
          sowing != null ? sowing : move != null ? move : check != null ? check : survival;
      if (done == null) {
        throw new InvalidInput(
            "one of sowing, move, check or survival is missing: send the correct entry");
      }
      return done;
    }
  }

  static <T> T needed(String name, @Nullable T value) {
    if (value == null) {
      throw InvalidInput.missing(name);
    }
    return value;
  }

  static Note note(Context ctx, Written body, Instant now) {
    return note(ctx, body.entry(), body.at(), body.by(), body.remark(), now);
  }

  static Note note(
      Context ctx,
      @Nullable String entry,
      @Nullable String at,
      @Nullable String by,
      @Nullable String remark,
      Instant now) {
    Instant when = at == null ? null : Params.instant("at", at);
    return new Note(key(ctx, entry), digest(ctx), when, by, remark, now);
  }

  private static @Nullable UUID key(Context ctx, @Nullable String entry) {
    String header = ctx.header(KEY_HEADER);
    String text = entry != null ? entry : header == null ? null : header.replace("\"", "");
    try {
      return text == null ? null : UUID.fromString(text.strip());
    } catch (IllegalArgumentException e) {
      throw new InvalidInput("entry, or " + KEY_HEADER + ", must be a UUID, not \"" + text + '"');
    }
  }

  private static String digest(Context ctx) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update((ctx.path() + '\n').getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest.digest(ctx.bodyAsBytes()), 0, 16);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
