package tepidarium.web.labels;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Container;
import tepidarium.container.Register;
import tepidarium.germination.GroupState;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.SowingFinder;
import tepidarium.germination.SowingTimeline;
import tepidarium.web.ContainerRequests;
import tepidarium.web.QrDrawing;

/** Routes for the labels of containers and their QR codes. */
public final class LabelRoutes {
  private final Register register;
  private final ContainerRequests requests;
  private final SeedJournal journal;
  private final SowingFinder sowings;
  private final @Nullable String publicUrl;

  /**
   * The seeds of one sowing in a container.
   *
   * @param seeds number of its seeds whose group is there, germinated and culled ones included
   */
  record LabelSowingJson(
      long sowing,
      @Nullable String name,
      String speciesName,
      int seeds,
      long lot,
      Instant sownAt) {}

  record LabelJson(String container, String name, String link, List<LabelSowingJson> sowings) {}

  record LabelsJson(String address, boolean loopback, List<LabelJson> labels) {}

  public LabelRoutes(
      Register register,
      ContainerRequests requests,
      SeedJournal journal,
      SowingFinder sowings,
      @Nullable String publicUrl) {
    this.register = register;
    this.requests = requests;
    this.journal = journal;
    this.sowings = sowings;
    this.publicUrl = publicUrl;
  }

  public void add(RoutesConfig routes) {
    routes.get("/api/labels", this::labels);
    routes.get("/api/containers/{id}/label.svg", this::code);
  }

  private void labels(Context ctx) {
    LabelAddress address = address(ctx);
    List<SowingTimeline> timelines = journal.sowings().stream().map(sowings::timeline).toList();
    ctx.json(
        new LabelsJson(
            address.url(),
            address.isLoopback(),
            register.containers().stream()
                .map(container -> label(container, address, timelines))
                .toList()));
  }

  private LabelAddress address(Context ctx) {
    return LabelAddress.of(publicUrl, ctx.scheme(), ctx.host());
  }

  private LabelJson label(
      Container container, LabelAddress address, List<SowingTimeline> timelines) {
    List<LabelSowingJson> inside = new ArrayList<>();
    for (SowingTimeline timeline : timelines) {
      List<GroupState> groups =
          timeline.groups().stream()
              .filter(group -> group.living() > 0 && group.container().equals(container.id()))
              .toList();
      if (!groups.isEmpty()) {
        inside.add(sowing(timeline, groups));
      }
    }
    return new LabelJson(
        container.id().value(), container.name(), address.check(container.id()), inside);
  }

  private LabelSowingJson sowing(SowingTimeline timeline, List<GroupState> groups) {
    return new LabelSowingJson(
        timeline.first().sowing(),
        timeline.name(),
        sowings.species(timeline).name(),
        groups.stream().mapToInt(GroupState::seeds).sum(),
        timeline.sowing().lot(),
        timeline.sownAt());
  }

  private void code(Context ctx) {
    Container container = requests.container(ctx);
    String link = address(ctx).check(container.id());
    ctx.contentType("image/svg+xml").result(QrDrawing.of(link).svg());
  }
}
