package tepidarium.alert.notify;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The JSON form of a notice for the webhook, the MQTT topic, the live stream and the API. */
public record NoticeJson(
    long id,
    String kind,
    String priority,
    Instant createdAt,
    String subject,
    String text,
    @Nullable String link,
    List<Notice.About> about) {

  public static NoticeJson of(Notice notice) {
    return new NoticeJson(
        notice.id(),
        notice.kind().key(),
        notice.priority().key(),
        notice.createdAt(),
        notice.subject(),
        notice.text(),
        notice.link(),
        notice.about());
  }
}
