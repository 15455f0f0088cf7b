package tepidarium.app;

import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.Register;
import tepidarium.ingest.ButtonPress;
import tepidarium.ingest.ButtonSink;

/** Records the openings of containers that are announced by buttons. */
final class Buttons implements ButtonSink {
  private final Register register;

  Buttons(Register register) {
    this.register = register;
  }

  @Override
  public @Nullable String press(ButtonPress press) {
    ContainerId id = ContainerId.ofText(press.container()).orElse(null);
    if (id == null || register.container(id).isEmpty()) {
      return "there is no container \""
          + press.container()
          + "\"; end the topic with the id in"
          + " the address of the container's page";
    }
    if (press.time().isZero()) {
      register.close(id, press.at());
    } else {
      register.openNow(id, press.time(), press.at());
    }
    return null;
  }
}
