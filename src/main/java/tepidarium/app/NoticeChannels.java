package tepidarium.app;

import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import tepidarium.alert.notify.Notifier;
import tepidarium.alert.notify.channel.EmailNotifier;
import tepidarium.alert.notify.channel.WebhookNotifier;

/** Creates the channels for notices that the settings ask for. */
final class NoticeChannels {
  private NoticeChannels() {}

  /** Creates the channels for e-mail and webhook, if they are set. */
  static List<Notifier> of(NoticesConfig config, Clock clock) {
    List<Notifier> channels = new ArrayList<>();
    NoticesConfig.Email email = config.email();
    if (email != null) {
      addEmail(channels, email);
    }
    NoticesConfig.Webhook webhook = config.webhook();
    if (webhook != null) {
      channels.add(new WebhookNotifier(webhook.url(), webhook.secret(), clock));
    }
    return channels;
  }

  private static void addEmail(List<Notifier> channels, NoticesConfig.Email email) {
    for (int i = 0; i < email.to().size(); i++) {
      String name = i == 0 ? "email" : "email-" + (i + 1);
      channels.add(new EmailNotifier(name, email.server(), email.to().get(i), false));
    }
    String escalateTo = email.escalateTo();
    if (escalateTo != null) {
      channels.add(new EmailNotifier("escalation", email.server(), escalateTo, true));
    }
  }
}
