// The states of sites in words. Pure.

import { UNKNOWN, count, known, number } from '../shared/format.js';
import { listed } from '../shared/text.js';
import { age, duration, stamp } from '../shared/time-format.js';
import { texts } from './texts.js';

const GIB = 2 ** 30;

/** The page of the site that explains the trouble; troubles without one lie outside the site. */
const PAGES = {
  records: '/service.html',
  readings: '/service.html',
  broker: '/service.html',
  part: '/service.html',
  disk: '/service.html',
  nobodyWaits: '/service.html',
  waitingWithoutBroker: '/service.html',
  highAlerts: '/alerts.html',
  refused: '/people.html',
};

/** With these troubles a site gives no answer of its own. Its last answer is shown. */
const SILENT = ['unreachable', 'refused', 'unreadable', 'nobodyWorks'];

export const verdictOf = (sites) => {
  if (sites.length === 0) return texts.noOtherSites;
  const down = namesWith(sites, 'down');
  if (down.length > 0) return texts.somethingIsWrongAt(listed(down));
  const attention = namesWith(sites, 'attention');
  const unknown = namesWith(sites, 'unknown');
  return [
    unknown.length === 0 && texts.allSitesWork,
    attention.length > 0 && texts.lookAt(listed(attention)),
    unknown.length > 0 && texts.notAskedYet(listed(unknown)),
  ]
    .filter(Boolean)
    .join(' ');
};

const namesWith = (sites, status) => sites.filter((site) => site.status === status).map((site) => site.name);

/** The words of a card. A site whose answer this page cannot show spoils no other card. */
export function cardOf(site, at) {
  try {
    return {
      status: site.status,
      word: texts.statusWords[site.status],
      sentence: sentenceOf(site, at),
      link: linkOf(site),
      facts: factsOf(site, at),
    };
  } catch {
    return { status: 'unknown', word: texts.statusWords.unknown, sentence: texts.notShown, link: null, facts: [] };
  }
}

function sentenceOf({ trouble, detail, since, machines, state }, at) {
  const sentence = {
    unreachable: () => silentWords(machines, detail ? ` (${detail})` : ''),
    refused: () => texts.refused,
    unreadable: () => texts.unreadable(detail),
    nobodyWorks: () => texts.nobodyWorks,
    records: () => texts.partIsDown(texts.recordsPart, detail),
    readings: () => texts.partIsDown(texts.readingsPart, detail),
    broker: () => texts.partIsDown(texts.brokerPart, detail),
    part: () => texts.partIsDown(texts.onePart, detail),
    highAlerts: () => texts.highAlerts(count(state.highAlerts, texts.alertCount)),
    disk: () => texts.diskFull(duration(state.disk.secondsUntilFull * 1000)),
    nobodyWaits: () => texts.nobodyWaits,
    waitingWithoutBroker: () => texts.waitingWithoutBroker,
    notAsked: () => texts.notAsked,
    none: () => texts.works,
  }[trouble]();
  return since ? `${sentence} ${texts.since(stamp(since, at))}` : sentence;
}

const silentWords = (machines, detail) =>
  machines === 1 ? texts.oneAddressSilent(detail) : texts.unreachable(number(machines), detail);

const linkOf = ({ trouble, address }) => (PAGES[trouble] ? address + PAGES[trouble] : null);

/** The facts of the last answer of a site. */
function factsOf(site, at) {
  const { state } = site;
  if (!state) return [];
  const facts = [
    { title: texts.worksOn, value: state.machine },
    { title: texts.lease, value: leaseOf(state) },
    { title: texts.waiting, value: state.waiting.length > 0 ? listed(state.waiting.map(waitingOf)) : texts.nobody },
    { title: texts.readingsIn, value: texts.perMinute(number(state.readings.perMinute)) },
    { title: texts.newestReading, value: state.readings.newest ? age(state.readings.newest, at) : texts.noReading },
    { title: texts.queue, value: number(state.readings.queue) },
    { title: texts.broker, value: isDown(state, 'broker') ? texts.notConnected : texts.connected },
    { title: texts.disk, value: diskOf(state.disk) },
    { title: texts.lastBackup, value: backupOf(state.backup, at) },
    { title: texts.highAlertsTitle, value: number(state.highAlerts) },
    { title: texts.takeOvers, value: takeOversOf(state.takeOvers, at) },
  ];
  if (SILENT.includes(site.trouble)) {
    facts.unshift({ title: texts.asOf, value: stamp(state.time, at) });
  }
  return facts;
}

const isDown = (state, part) => state.down.some((down) => down.part === part);

const waitingOf = ({ machine, reachesBroker }) => (reachesBroker ? machine : texts.withoutBroker(machine));

const leaseOf = ({ lease }) =>
  lease ? texts.renewed(number(lease.renewedSecondsAgo, 1), stamp(lease.since)) : texts.noLease;

const diskOf = ({ freeBytes, secondsUntilFull }) => {
  const free = texts.gibFree(number(freeBytes / GIB, 1));
  return known(secondsUntilFull) ? `${free}, ${texts.fullIn(duration(secondsUntilFull * 1000))}` : free;
};

const backupOf = ({ last, elsewhere }, at) => (elsewhere ? texts.backupElsewhere : last ? stamp(last, at) : UNKNOWN);

const takeOversOf = ({ count: times, newest }, at) =>
  times === 0 ? texts.noTakeOver : texts.timesLast(number(times), stamp(newest[0].at, at));
