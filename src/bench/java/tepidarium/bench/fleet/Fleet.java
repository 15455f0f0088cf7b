package tepidarium.bench.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/**
 * Simulates sites over many machines that fail, by discrete events in seconds. Between two events
 * readings flow: each site sends evenly, its broker holds what nobody stores, and a service that is
 * back stores as fast as it and the store can. The same seed gives the same course.
 *
 * <p>What a lost broker holds stays there until its machine is back, and is stored then.
 *
 * <p>A site whose owner is lost is served again 12.2 s to 26.5 s later, as measured with two
 * services (see {@code src/docs/faults.md}). If the database's leader is lost, another one leads
 * after 10 s to 12 s (11.3 s measured with a program that promotes; see {@code src/docs/scale.md}),
 * and since the services end after 7 s without a lease, each starts again after that.
 */
public final class Fleet {
  private static final double DAY = 86_400;
  private static final double HOUR = 3_600;
  private static final double SERVED_FROM = 12.2;
  private static final double SERVED_TO = 26.5;

  /** The part of it that a start takes once the database can be owned. */
  private static final double LEASE = 7.2;

  private static final double ENDS_AFTER = 7;

  /** By how many of the smallest steps of the clock a time may be wrong. */
  private static final double ROUNDED = 4;

  private static final double LEADS_FROM = 10;
  private static final double LEADS_TO = 12;

  private record Event(double at, long number, Runnable what) {}

  /** Readings that a lost broker holds for a site. */
  private record Held(int machine, double readings, double lostAt) {}

  private final FleetPlan plan;
  private final SplittableRandom random;
  private final List<FleetSite> sites = new ArrayList<>();
  private final PriorityQueue<Event> events =
      new PriorityQueue<>(Comparator.comparingDouble(Event::at).thenComparing(Event::number));
  private final Map<LossCause, List<Double>> outages = new EnumMap<>(LossCause.class);
  private final List<Held> held = new ArrayList<>();
  private final Lateness lateness = new Lateness(10, 60, 300, 3_600);

  /** How many failures and cuts keep each machine away. */
  private final int[] away;

  private double now;
  private long number;
  private int leader;
  private boolean led = true;
  private int elections;
  private double unheard;
  private double longestQueue;
  private double unowned;

  /**
   * Creates the machines, all of them up: services first, then the database's, then the store's.
   */
  public Fleet(FleetPlan plan, long seed) {
    this.plan = plan;
    random = new SplittableRandom(seed);
    int services = plan.serviceMachines();
    away = new int[services + plan.databaseMachines() + plan.storeMachines()];
    leader = services;
    for (int i = 0; i < plan.sites(); i++) {
      int first = i % services;
      int second = (first + 1 + i / services % (services - 1)) % services;
      sites.add(new FleetSite(first, second, (first + services / 2) % services));
    }
  }

  /** Lets so many days pass. */
  public void run(double days) {
    for (int machine = 0; machine < away.length; machine++) {
      int which = machine;
      after(random(plan.machineFailsDays() * DAY), () -> fails(which));
      after(random(plan.cutDays() * DAY), () -> isCut(which));
    }
    for (FleetSite site : sites) {
      after(random(plan.processDays() * DAY), () -> ends(site));
    }
    double end = now + days * DAY;
    while (now < end) {
      setRates();
      Event next = events.peek();
      double until = Math.min(end, next == null ? end : next.at());
      until = Math.min(until, firstEmptied());
      flow(until - now);
      now = until;
      if (next != null && next.at() <= now) {
        events.remove();
        next.what().run();
      }
    }
  }

  private double random(double mean) {
    return -mean * Math.log1p(-random.nextDouble());
  }

  private void after(double seconds, Runnable what) {
    events.add(new Event(now + seconds, number++, what));
  }

  private boolean isUp(int machine) {
    return away[machine] == 0;
  }

  private void fails(int machine) {
    double repair = random(plan.repairHours() * HOUR);
    leave(machine, LossCause.MACHINE, repair);
    after(repair + random(plan.machineFailsDays() * DAY), () -> fails(machine));
  }

  private void isCut(int machine) {
    double cut = random(plan.cutSeconds());
    leave(machine, LossCause.NETWORK, cut);
    after(cut + random(plan.cutDays() * DAY), () -> isCut(machine));
  }

  private void leave(int machine, LossCause cause, double seconds) {
    away[machine]++;
    after(seconds, () -> comeBack(machine));
    for (FleetSite site : sites) {
      if (site.isOwnedBy(machine)) {
        lose(site, cause);
      }
      if (site.broker == machine) {
        double lostAt = now;
        after(plan.brokerMovedSeconds(), () -> moveBroker(site, machine, lostAt));
      }
    }
    if (machine == leader && led) {
      led = false;
      after(ENDS_AFTER, () -> endWithoutDatabase(elections));
      after(between(LEADS_FROM, LEADS_TO), this::elect);
    }
  }

  private void comeBack(int machine) {
    away[machine]--;
    if (isUp(machine)) {
      deliverHeld(machine);
    }
    if (!led) {
      after(between(LEADS_FROM, LEADS_TO), this::elect);
    }
    for (FleetSite site : sites) {
      if (!site.isOwned() && (site.first == machine || site.second == machine)) {
        start(site);
      }
    }
  }

  private void moveBroker(FleetSite site, int from, double lostAt) {
    if (site.broker == from && !isUp(from)) {
      held.add(new Held(from, site.waiting, lostAt));
      site.waiting = 0;
      int other = (from + 1) % plan.serviceMachines();
      while (!isUp(other) && other != from) {
        other = (other + 1) % plan.serviceMachines();
      }
      site.broker = other;
    }
  }

  /** Its last reading was sent when the broker was lost. */
  private void deliverHeld(int machine) {
    for (Held one : held) {
      if (one.machine == machine) {
        double newest = now - one.lostAt;
        lateness.add(one.readings, newest, newest + one.readings / plan.sent());
      }
    }
    held.removeIf(one -> one.machine == machine);
  }

  private double between(double from, double to) {
    return from + (to - from) * random.nextDouble();
  }

  private void elect() {
    int first = plan.serviceMachines();
    int up = 0;
    for (int i = first; i < first + plan.databaseMachines(); i++) {
      up += isUp(i) ? 1 : 0;
    }
    if (led || 2 * up <= plan.databaseMachines()) {
      return;
    }
    led = true;
    elections++;
    leader = first;
    while (!isUp(leader)) {
      leader++;
    }
    sites.stream().filter(site -> !site.isOwned()).forEach(this::start);
  }

  private void endWithoutDatabase(int electionsThen) {
    if (!led && elections == electionsThen) {
      sites.stream().filter(FleetSite::isOwned).forEach(site -> site.lose(LossCause.DATABASE, now));
    }
  }

  private void ends(FleetSite site) {
    if (site.isOwned()) {
      lose(site, LossCause.PROCESS);
    }
    after(random(plan.processDays() * DAY), () -> ends(site));
  }

  /** The other service waits for the end of the lease, and then starts. */
  private void lose(FleetSite site, LossCause cause) {
    site.lose(cause, now);
    int loss = site.loss;
    after(between(SERVED_FROM, SERVED_TO), () -> own(site, loss));
  }

  /** A service can own the site at once, but has to start. */
  private void start(FleetSite site) {
    int loss = site.loss;
    after(between(SERVED_FROM, SERVED_TO) - LEASE, () -> own(site, loss));
  }

  private void own(FleetSite site, int loss) {
    if (site.loss != loss || site.isOwned() || !led) {
      return;
    }
    int next = isUp(site.other()) ? site.other() : site.last();
    if (isUp(next)) {
      site.own(next);
      outages.computeIfAbsent(site.cause(), cause -> new ArrayList<>()).add(now - site.since());
    }
  }

  /** Shares what the store can take: small wants are met, the others get the same. */
  private void setRates() {
    List<FleetSite> working = new ArrayList<>();
    for (FleetSite site : sites) {
      site.stored = 0;
      if (site.isOwned() && isUp(site.broker)) {
        site.stored = site.waiting > 0 ? plan.siteRate() : Math.min(plan.sent(), plan.siteRate());
        working.add(site);
      }
    }
    working.sort(Comparator.comparingDouble(site -> site.stored));
    double left = storeRate();
    for (int i = 0; i < working.size(); i++) {
      FleetSite site = working.get(i);
      site.stored = Math.min(site.stored, left / (working.size() - i));
      left -= site.stored;
    }
  }

  private double storeRate() {
    int from = plan.serviceMachines() + plan.databaseMachines();
    long missing = Arrays.stream(away, from, away.length).filter(causes -> causes > 0).count();
    double missingShare = missing == 0 ? 0 : (double) missing / plan.storeMachines();
    return missing > 1 ? 0 : plan.storeRate() * (1 - missingShare);
  }

  private double heard(FleetSite site) {
    return isUp(site.broker) ? plan.sent() : 0;
  }

  private double firstEmptied() {
    double first = Double.POSITIVE_INFINITY;
    for (FleetSite site : sites) {
      double shrinks = site.stored - heard(site);
      if (site.waiting > 0 && shrinks > 0) {
        first = Math.min(first, now + site.waiting / shrinks);
      }
    }
    return first;
  }

  private void flow(double seconds) {
    for (FleetSite site : sites) {
      double heard = heard(site);
      double before = site.waiting;
      double after = Math.max(0, before + (heard - site.stored) * seconds);
      // The time at which the last ones are stored is rounded.
      site.waiting = after <= site.stored * ROUNDED * Math.ulp(now) ? 0 : after;
      unheard += (plan.sent() - heard) * seconds;
      unowned += site.isOwned() ? 0 : seconds;
      longestQueue = Math.max(longestQueue, site.waiting);
      lateness.add(site.stored * seconds, before / plan.sent(), site.waiting / plan.sent());
    }
  }

  /** How long nobody worked for a site, s, by cause, in the order in which it ended. */
  public Map<LossCause, List<Double>> outages() {
    return outages;
  }

  /** The share of readings that were stored later than 10 s, 1 min, 5 min or 1 h, by its index. */
  public double laterShare(int limit) {
    return lateness.share(limit);
  }

  /** The longest time from sending to storing, s. */
  public double longestLateness() {
    return lateness.longest();
  }

  /** Readings sent, and those that were stored, wait, or were sent while the broker was away. */
  double[] balance() {
    double waiting =
        sites.stream().mapToDouble(site -> site.waiting).sum()
            + held.stream().mapToDouble(Held::readings).sum();
    return new double[] {plan.sent() * sites.size() * now, lateness.all() + waiting + unheard};
  }

  /** The share of readings that were sent while the site's broker was away. */
  public double unheard() {
    return unheard / (unheard + lateness.all());
  }

  /** The most readings that one broker held for a site. */
  public double longestQueue() {
    return longestQueue;
  }

  /** The share of time in which nobody worked for a site. */
  public double unowned() {
    return unowned / (now * sites.size());
  }
}
