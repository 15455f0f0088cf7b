package tepidarium.ingest;

import java.time.Instant;

/**
 * A line of the reject log: content that could not be read or stored, with the reason. All texts
 * are cut and printable, so they can be stored and shown as they are.
 *
 * @param at when the message arrived
 * @param payload beginning of the payload, or of the rejected entry of a backlog
 */
public record Reject(Instant at, String topic, RejectCode code, String reason, String payload) {
  /** Maximum length of topic and payload, in characters. */
  public static final int MAX_EXCERPT_LENGTH = 200;

  /** Maximum length of the reason, in characters; reasons quote text of the sender. */
  public static final int MAX_REASON_LENGTH = 500;

  /** Creates a line; cuts each text and replaces unprintable characters. */
  public static Reject of(
      Instant at, String topic, RejectCode code, String reason, String payload) {
    return new Reject(at, printable(topic), code, printableReason(reason), printable(payload));
  }

  /**
   * Cuts a text of a sender, such as a topic or a client id, and replaces unprintable characters.
   * Line breaks in it could forge lines of the log.
   */
  public static String printable(String text) {
    return Text.printable(text, MAX_EXCERPT_LENGTH);
  }

  /** The same for a reason, which may be longer. */
  public static String printableReason(String reason) {
    return Text.printable(reason, MAX_REASON_LENGTH);
  }
}
