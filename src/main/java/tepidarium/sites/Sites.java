package tepidarium.sites;

import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * Asks the other sites for their state every 10 s, on a thread of its own, and keeps what they
 * said. All addresses are asked at once; each has 5 s for its answer. Thread-safe.
 */
public final class Sites implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Sites.class);
  private static final int INTERVAL_SECONDS = 10;
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(5);

  private final List<OtherSite> others;
  private final Supplier<SiteState> own;
  private final Clock clock;
  private final SiteClient client;
  private final Map<String, SiteReport> reports = new ConcurrentHashMap<>();
  private final ScheduledExecutorService asking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("sites"));
  private @Nullable String lastFailure; // used by the thread that asks

  /**
   * Prepares the questions.
   *
   * @param own the state of this site
   */
  public Sites(List<OtherSite> others, Supplier<SiteState> own, Clock clock) {
    this(others, own, clock, new SiteClient(ANSWER_LIMIT));
  }

  Sites(List<OtherSite> others, Supplier<SiteState> own, Clock clock, SiteClient client) {
    this.client = client;
    this.others = List.copyOf(others);
    this.own = own;
    this.clock = clock;
  }

  /** Starts to ask, if there are other sites. */
  public Sites start() {
    warnOfOpenTokens();
    if (!others.isEmpty()) {
      var unused =
          asking.scheduleWithFixedDelay(this::askAll, 0, INTERVAL_SECONDS, TimeUnit.SECONDS);
    }
    return this;
  }

  /** Warns of addresses to which a token goes unencrypted. */
  void warnOfOpenTokens() {
    for (OtherSite site : others) {
      for (URI address : site.addressesWithOpenToken()) {
        LOG.warn("the token of site {} goes to {} unencrypted; use https", site.name(), address);
      }
    }
  }

  public boolean isEmpty() {
    return others.isEmpty();
  }

  /** Returns the state of this site. */
  public SiteState own() {
    return own.get();
  }

  /** Returns what is known of each other site, the worst first, then by name. */
  public List<SiteReport> reports() {
    return others.stream()
        .map(site -> reports.getOrDefault(site.name(), notAsked(site)))
        .sorted(
            Comparator.comparing((SiteReport report) -> report.trouble().level())
                .thenComparing(SiteReport::trouble)
                .thenComparing(SiteReport::name))
        .toList();
  }

  private static SiteReport notAsked(OtherSite site) {
    return new SiteReport(
        site.name(),
        site.addresses().get(0),
        SiteTrouble.NOT_ASKED,
        null,
        null,
        site.addresses().size(),
        0,
        null);
  }

  /** Asks every address once. A failure is logged once for each cause; the next time asks again. */
  void askAll() {
    try {
      ask();
      lastFailure = null;
    } catch (RuntimeException | Error e) { // the executor would never ask again
      String failure = e.toString();
      if (!asking.isShutdown() && !failure.equals(lastFailure)) {
        LOG.warn("asking the other sites failed; asking again in 10 s", e);
      }
      lastFailure = failure;
    }
  }

  private void ask() {
    List<CompletableFuture<?>> all = new ArrayList<>();
    for (OtherSite site : others) {
      List<CompletableFuture<SiteAnswer>> answers = new ArrayList<>();
      for (URI address : site.addresses()) {
        answers.add(client.ask(address, site.token()));
      }
      all.add(
          CompletableFuture.allOf(answers.toArray(CompletableFuture[]::new))
              .thenRun(() -> note(site, answers.stream().map(CompletableFuture::join).toList())));
    }
    // Each answer has a limit of its own.
    CompletableFuture.allOf(all.toArray(CompletableFuture[]::new)).join();
  }

  private void note(OtherSite site, List<SiteAnswer> answers) {
    SiteAnswer best = answers.stream().min(Comparator.comparing(SiteAnswer::kind)).orElseThrow();
    SiteReport before = reports.get(site.name());
    SiteState state = best.state();
    SiteTrouble trouble = best.trouble();
    boolean same = before != null && before.trouble() == trouble;
    Instant since = same ? Objects.requireNonNull(before).since() : clock.instant();
    long waiting = answers.stream().filter(each -> each.kind() == SiteAnswer.Kind.WAITS).count();
    reports.put(
        site.name(),
        new SiteReport(
            site.name(),
            best.address(),
            trouble,
            detail(best, trouble),
            trouble == SiteTrouble.NONE ? null : since,
            answers.size(),
            (int) waiting,
            state != null || before == null ? state : before.state()));
  }

  private static @Nullable String detail(SiteAnswer best, SiteTrouble trouble) {
    SiteState state = best.state();
    return state == null ? best.detail() : SiteTrouble.detail(trouble, state);
  }

  @Override
  public void close() {
    asking.shutdownNow();
  }
}
