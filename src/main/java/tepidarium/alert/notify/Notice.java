package tepidarium.alert.notify;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * A message in the outbox.
 *
 * @param id its number; 0 before it is stored, and for a test
 * @param subject one line
 * @param text plain text, for one screen
 * @param link link to the page; null if no public address is set
 */
public record Notice(
    long id,
    NoticeKind kind,
    Priority priority,
    Instant createdAt,
    String subject,
    String text,
    @Nullable String link,
    List<About> about) {

  /**
   * The subject of a notice: an alert or a part of the service.
   *
   * @param alert the alert's id; null for the service itself and for a pending alert
   * @param container the container; null for the service itself
   * @param topic the alert's kind, or the part of the service
   * @param active whether it was active when the notice was written
   */
  public record About(
      @Nullable Long alert, @Nullable String container, String topic, boolean active) {}

  public Notice {
    about = List.copyOf(about);
  }

  Notice withSubject(String other) {
    return new Notice(id, kind, priority, createdAt, other, text, link, about);
  }

  Notice withId(long given) {
    return new Notice(given, kind, priority, createdAt, subject, text, link, about);
  }
}
