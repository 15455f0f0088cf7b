package tepidarium.alert.notify;

import java.util.List;

/** Lists the first steps for each alert topic; common practice, no source. */
final class FirstSteps {
  private static final String OPEN_LITTLE =
      "Open it briefly if at all, where air moves; gloves and a mask where there may be mould.";

  private FirstSteps() {}

  /** The first steps for a topic, the most important one first. */
  static List<String> of(String topic) {
    return switch (topic) {
      case "cold", "headingCold" ->
          List.of(
              "Look whether the heat source has power: plug, fuse, residual-current device.",
              "Unplug a mat before you touch it where anything is wet.",
              "No power? Wrap the containers, or carry them to a warm room, closed.");
      case "hot", "headingHot" ->
          List.of(
              "Unplug the heat source at a dry socket; do not touch a wet mat that is plugged in.",
              "Let air at the closed container; keep it out of the sun.",
              "Plug in again only with a thermostat that works and a sensor in its place.");
      case "dry" ->
          List.of(
              "Look for an open seam or lid and close it.",
              "Unplug a mat near it first; then mist with clean, lukewarm water.",
              OPEN_LITTLE);
      case "light" ->
          List.of(
              "Look at seam, lid and closet door; tape or turn what lets light in.",
              "Was it you? Record an opening, so that it does not count as a leak.");
      case "silent" ->
          List.of(
              "Look whether the sensor's battery and your Wi-Fi work.",
              "Until it is heard, nothing is known: feel the container from outside.",
              OPEN_LITTLE);
      case "battery" ->
          List.of(
              "Charge or change the battery soon; no lithium cell belongs in a hot, wet container.",
              OPEN_LITTLE);
      case "faulty" ->
          List.of(
              "Do not trust this sensor: compare with a second one.",
              "Look for water on it or a loose wire; unplug a mat near it before you reach in.",
              OPEN_LITTLE);
      case "broker" ->
          List.of(
              "Look whether the machine with the broker runs and is in the network.",
              "Until it is heard, no container is watched.");
      case "intake" ->
          List.of(
              "Look at the state of the service at the foot of each page, and at the rejects.",
              "Readings wait in the broker meanwhile. If this lasts, start the service again.");
      case "disk" ->
          List.of(
              "Free space on the disk, or move the data folder to a larger one.",
              "When it is full, nothing more is kept, and the broker holds readings back.");
      case "clock" ->
          List.of(
              "Set the clock, and let it be set from the network.",
              "Readings without a time of their own may bear wrong times around the jump.");
      default -> List.of("Open the page and look.");
    };
  }
}
