// The settings in words: groups, values, places. Pure.

import { typedNumber } from '../shared/typed.js';
import { texts } from './texts.js';

const GROUPS = {
  notices: /^notices\./,
  sensors: /^(maxGap|silent|maxSensors|newSensors|rootTopic|mappings|maxPayload)/,
  place: /^(timeZone|site)/,
  storage: /^(data$|records|standby|readings|influx|spool|keepRaw|backups\.|logFormat)/,
  pages: /^(http|login|tls\.|proxies)/,
  broker: /./,
};

const groupOf = (name) => Object.keys(GROUPS).find((group) => GROUPS[group].test(name));

/** The settings by group, in the order of the groups; groups without a setting are left out. */
export const byGroup = (settings) =>
  Object.keys(GROUPS)
    .map((group) => ({
      group,
      title: texts.groups[group],
      settings: settings.filter(({ name }) => groupOf(name) === group),
    }))
    .filter((one) => one.settings.length > 0);

/** Its value, or its default. */
export function valueWords({ set, secret, value, default: standard }) {
  if (!set) return texts.standard(standard);
  if (secret) return texts.hidden;
  return typeof value === 'string' ? value : JSON.stringify(value);
}

const PLACES = {
  page: () => texts.onThisPage,
  file: (name) => (name ? texts.inTheFile(name) : texts.inASettingsFile),
  environment: (name) => texts.inTheEnvironment(name),
  'command-line': () => texts.onTheCommandLine,
};

/** Where a setting is set; empty for its default. */
export const placeWords = ({ place, placeName }) => PLACES[place]?.(placeName) ?? '';

/** Where it is set, and whether it waits or can be changed. */
export function stateWords(setting) {
  const place = placeWords(setting);
  const parts = [place && texts.isSet(place), setting.waiting && texts.isWaiting, setting.fileOnly && texts.fileOnly];
  return parts.filter(Boolean).join(' ');
}

/** Settings that a form above the list changes, while it may. */
const IN_A_FORM = /^notices\.(email|webhook)\./;

/** The settings that the list shows. @param show `all`, `set`, `changeable` or `waiting` @param search a part of name or meaning */
export function wanted(settings, { show, search }) {
  const part = search.trim().toLowerCase();
  return settings.filter(
    (setting) =>
      !(IN_A_FORM.test(setting.name) && setting.changeable) &&
      (show === 'all' || setting[show]) &&
      (setting.name.toLowerCase().includes(part) || setting.meaning.toLowerCase().includes(part)),
  );
}

/** What was typed, for the service: a number where the setting holds one. Empty means the default. */
export function typedValue({ kind }, text) {
  const typed = text.trim();
  if (typed === '') return null;
  if (kind !== 'whole' && kind !== 'number') return typed;
  const number = typedNumber(typed);
  return Number.isFinite(number) ? number : typed;
}
