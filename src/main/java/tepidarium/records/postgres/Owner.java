package tepidarium.records.postgres;

import java.nio.charset.StandardCharsets;
import java.util.UUID;

/**
 * The owner of a lease, as it is written there: the name of the machine, the data folder, and the
 * start of the service, such as {@code shed.0c4e1a7f.9b2d3e51}.
 */
record Owner(String text) {
  private static final String MARK = "\\.[0-9a-f]{8}";

  /** A new one for each start. */
  static Owner of(Tenancy tenancy) {
    byte[] folder = tenancy.folder().getBytes(StandardCharsets.UTF_8);
    return new Owner(
        tenancy.machine() + mark(UUID.nameUUIDFromBytes(folder)) + mark(UUID.randomUUID()));
  }

  private static String mark(UUID id) {
    return '.' + id.toString().substring(0, 8);
  }

  /** The name of the machine. Earlier versions wrote the start alone behind it. */
  String machine() {
    return text.replaceFirst("(" + MARK + "){1,2}$", "");
  }

  /** Whether both are starts of the same data folder on the same machine. */
  boolean isSameService(Owner other) {
    // Earlier versions wrote no data folder.
    return service().equals(other.service()) || other.service().equals(machine());
  }

  private String service() {
    return text.replaceFirst(MARK + "$", "");
  }
}
