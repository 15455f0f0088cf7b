package tepidarium.app.demo;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Creates the lots, sowings and checks of the seed book over the HTTP API. */
final class SeedWriter {
  private final DemoClient client;
  private final Garden garden;
  private final Map<String, String> containers;

  /**
   * Creates a writer; the garden's containers must exist in the service.
   *
   * @param containers the id of each container by its name
   */
  SeedWriter(DemoClient client, Garden garden, Map<String, String> containers) {
    this.client = client;
    this.garden = garden;
    this.containers = Map.copyOf(containers);
  }

  void write(List<SeedBook.Lot> lots) {
    for (SeedBook.Lot lot : lots) {
      Instant gathered = garden.calendar().at(SeedBook.GATHERED_DAYS_AGO, SeedBook.SOWN_AT);
      Map<String, Object> request =
          Map.of(
              "species", lot.species(),
              "seeds", lot.seeds(),
              "gatheredAt", gathered,
              "from", "plant",
              "kept", lot.kept());
      long id = client.call("POST", "/api/lots", request).required("id").asLong();
      lot.sowings().forEach(sowing -> createSowing(id, sowing));
    }
  }

  private void createSowing(long lot, SeedBook.Sowing sowing) {
    List<Map<String, Object>> groups = new ArrayList<>();
    for (SeedBook.Portion portion : sowing.portions()) {
      groups.add(Map.of("container", id(portion.container()), "seeds", portion.seeds()));
    }
    Instant at = garden.calendar().at(SeedBook.SOWN_DAYS_AGO, SeedBook.SOWN_AT);
    Map<String, Object> request =
        Map.of("lot", lot, "name", sowing.name(), "groups", groups, "at", at);
    JsonNode sown =
        client.call("POST", "/api/sowings", request).required("sowing").required("groups");
    for (int i = 0; i < sowing.portions().size(); i++) {
      createChecks(sown.required(i).required("id").asText(), sowing.portions().get(i));
    }
  }

  private String id(String container) {
    String id = containers.get(container);
    if (id == null) {
      throw new IllegalStateException("the garden has no container " + container);
    }
    return id;
  }

  private void createChecks(String group, SeedBook.Portion portion) {
    List<ContainerCheck> checks =
        garden.containers().stream()
            .filter(container -> container.name().equals(portion.container()))
            .findFirst()
            .orElseThrow()
            .checks();
    for (int i = 0; i < portion.counts().size(); i++) {
      SeedBook.Count count = portion.counts().get(i);
      List<Map<String, Object>> culled =
          count.mouldy() == 0
              ? List.of()
              : List.of(Map.of("count", count.mouldy(), "reason", "mould"));
      Map<String, Object> request =
          Map.of(
              "germinated", count.germinated(),
              "culled", culled,
              "pottedOn", count.pottedOn(),
              "at", checks.get(i).span().to());
      client.call("POST", "/api/groups/" + group + "/checks", request);
    }
  }
}
