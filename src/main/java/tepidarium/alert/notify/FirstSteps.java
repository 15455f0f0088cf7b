package tepidarium.alert.notify;

import java.util.List;

/** Lists the first steps for each alert topic; common practice, no source. */
final class FirstSteps {
  private static final String OPEN_LITTLE =
      "Open it only briefly, in moving air. Wear gloves and a mask if there may be mould.";

  private FirstSteps() {}

  /** The first steps for a topic, the most important one first. */
  static List<String> of(String topic) {
    return switch (topic) {
      case "cold", "headingCold" ->
          List.of(
              "Check that the heat source has power: plug, fuse, residual-current device.",
              "If anything is wet, unplug the mat before you touch it.",
              "No power? Wrap the containers, or carry them to a warm room, closed.");
      case "hot", "headingHot" ->
          List.of(
              "Unplug the heat source at a dry socket; do not touch a wet mat that is plugged in.",
              "Keep the container closed. Let air flow around it, and keep it out of the sun.",
              "Plug in again only once the thermostat works and its sensor is in place.");
      case "dry" ->
          List.of(
              "Check seam and lid, and close them.",
              "Unplug a mat near it first; then mist with clean, lukewarm water.",
              OPEN_LITTLE);
      case "dryMedium" ->
          List.of(
              "Compare with a hand on the medium: a probe in a dry spot or with air around it lies.",
              "Unplug a mat near it first; then moisten with clean, lukewarm water.",
              OPEN_LITTLE);
      case "staleAir" ->
          List.of(
              "Open it for a minute where air moves; wear a mask, do not lean over it.",
              "Look for mould and rot, which also use up air.");
      case "light" ->
          List.of(
              "Check seam, lid and closet door. Tape the leak, or turn it away from the light.",
              "If you opened it yourself, record an opening. It then does not count as a leak.");
      case "silent" ->
          List.of(
              "Check the battery of the sensor and your Wi-Fi.",
              "Until the sensor reports again, feel the container from outside.",
              OPEN_LITTLE);
      case "battery" ->
          List.of(
              "Charge or change the battery soon. Keep lithium cells out of a hot, wet container.",
              OPEN_LITTLE);
      case "faulty" ->
          List.of(
              "Do not trust this sensor. Compare it with a second one.",
              "Check it for water and loose wires. Unplug a mat near it before you reach in.",
              OPEN_LITTLE);
      case "broker" ->
          List.of(
              "Check that the machine with the broker runs and is connected to the network.",
              "Until the broker is back, no container is monitored.");
      case "intake" ->
          List.of(
              "Check the state of the service at the foot of each page, and the rejects.",
              "Readings wait in the broker meanwhile. If this continues, restart the service.");
      case "disk" ->
          List.of(
              "Free space on the disk, or move the data folder to a larger one.",
              "When the disk is full, no reading is stored; readings wait in the broker.");
      case "clock" ->
          List.of(
              "Set the clock, and turn on network time.",
              "Readings without a timestamp may have wrong times around the jump.");
      case "date" ->
          List.of(
              "Compare the date and the time of this machine with another clock; set them.",
              "If they are right, restart the service with --trust-clock.");
      default -> List.of("Check the page.");
    };
  }
}
