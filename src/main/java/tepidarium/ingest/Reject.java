package tepidarium.ingest;

import java.time.Instant;

/**
 * A line of the reject log: something that could not be read, or not as it was sent, and why. Short
 * and printable whatever the sender did, so that it can be stored and shown as it is.
 *
 * @param at when the message arrived
 * @param payload the beginning of the payload, or of the one entry of a backlog that is meant
 */
public record Reject(Instant at, String topic, RejectCode code, String reason, String payload) {
  /** The longest topic and payload kept, in characters. */
  public static final int LONGEST_EXCERPT = 200;

  /** The longest reason kept, in characters; reasons quote senders, who may be long-winded. */
  public static final int LONGEST_REASON = 500;

  /** A line with each part cut to length and its unprintable characters replaced. */
  public static Reject of(
      Instant at, String topic, RejectCode code, String reason, String payload) {
    return new Reject(
        at,
        Text.printable(topic, LONGEST_EXCERPT),
        code,
        Text.printable(reason, LONGEST_REASON),
        Text.printable(payload, LONGEST_EXCERPT));
  }
}
