package tepidarium.alert.notify;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * A message as it was put into the outbox.
 *
 * @param id its number; 0 before it was kept, and for a test
 * @param subject one line
 * @param text plain text, for one screen
 * @param link where to look, or null when no public address was set
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
   * What it is about.
   *
   * @param alert the alert's number; null for the service itself, and for what is told along before
   *     its alert is raised
   * @param container the container; null for the service itself
   * @param topic the alert's kind, or the part of the service
   * @param active whether it was so when the notice was written
   */
  public record About(
      @Nullable Long alert, @Nullable String container, String topic, boolean active) {}

  public Notice {
    about = List.copyOf(about);
  }

  Notice withId(long given) {
    return new Notice(given, kind, priority, createdAt, subject, text, link, about);
  }
}
