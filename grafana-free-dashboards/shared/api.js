// Lists every call to the service.

import { fileCalls } from './api-files.js';
import { at, call, liveRefusal } from './call.js';
import { learnTime } from './clock.js';
import { who } from './who.js';

const iso = (ms) => (ms === null || ms === undefined ? undefined : new Date(ms).toISOString());
const span = ({ from, to, ...rest }) => ({ from: iso(from), to: iso(to), ...rest });

export const api = {
  liveRefusal,
  async health(timeoutMs) {
    const health = await call('GET', '/api/health', { timeoutMs });
    if (health.time) learnTime(health.time);
    return health;
  },
  setup: () => call('GET', '/api/setup'),
  site: () => call('GET', '/api/site'),
  sites: () => call('GET', '/api/sites'),
  session: () => call('GET', '/api/session'),
  signIn: (body) => call('POST', '/api/session', { body, timeoutMs: 60_000 }),
  signOut: () => call('DELETE', '/api/session'),
  changePassword: (body) => call('PUT', '/api/session/password', { body, timeoutMs: 60_000 }),
  sessions: () => call('GET', '/api/sessions'),
  endSession: (id) => call('DELETE', at('sessions', id)),
  people: () => call('GET', '/api/people'),
  addPerson: (body) => call('POST', '/api/people', { body, timeoutMs: 60_000 }),
  changePerson: (id, body) => call('PUT', at('people', id), { body, timeoutMs: 60_000 }),
  removePerson: (id) => call('DELETE', at('people', id)),
  tokens: () => call('GET', '/api/tokens'),
  addToken: (body) => call('POST', '/api/tokens', { body }),
  removeToken: (id) => call('DELETE', at('tokens', id)),
  settings: () => call('GET', '/api/settings'),
  /** @param settings new values by name; null gives the default back */
  changeSettings: (settings) => call('PATCH', '/api/settings', { body: { settings } }),
  /** Sends real test messages. Each may take a minute. */
  trySettings: (settings) => call('POST', '/api/settings/trial', { body: { settings }, timeoutMs: 200_000 }),
  containers: (part) => call('GET', '/api/containers', { query: part }), // part: limit, sort, search, room
  checksDue: () => call('GET', '/api/checks-due'),
  rooms: () => call('GET', '/api/rooms'),
  container: (id) => call('GET', at('containers', id)),
  createContainer: (body) => call('POST', '/api/containers', { body }),
  changeContainer: (id, body) => call('PUT', at('containers', id), { body }),
  removeContainer: (id) => call('DELETE', at('containers', id)),
  /** Ranges are given in milliseconds since 1970, as the charts hold them. */
  readings: (id, range) => call('GET', at('containers', id, 'readings'), { query: span(range) }),
  dayExtremes: (id) => call('GET', at('containers', id, 'day-extremes')),
  putDayExtremes: (id, day, body) => call('PUT', at('containers', id, 'day-extremes', day), { body }),
  removeDayExtremes: (id, day) => call('DELETE', at('containers', id, 'day-extremes', day)),
  /** All that charts of several containers show. */
  charts: (what) => call('GET', '/api/charts', { query: span(what), timeoutMs: 60_000 }),
  /** `containers` or `sources`: two or more ids, or names. */
  compareHeat: (what) => call('GET', '/api/compare/heat', { query: span(what) }),
  trial: (id, range) => call('GET', at('containers', id, 'trial'), { query: span(range) }),
  open: (id, minutes) => call('POST', at('containers', id, 'openings'), { body: { minutes } }),
  endOpening: (id) => call('POST', at('containers', id, 'openings', 'end'), { body: {} }),
  suggestedOpenings: (id, range) => call('GET', at('containers', id, 'openings', 'suggested'), { query: span(range) }),
  recordOpening: (id, { from, until }) => call('POST', at('containers', id, 'openings'), { body: { from, until } }),
  declineOpening: (id, { from, until }) =>
    call('POST', at('containers', id, 'openings', 'suggested', 'decline'), { body: { from, until } }),
  sensorFaults: (sensor, range) => call('GET', at('sensors', sensor, 'faults'), { query: span(range) }),
  decideFault: (sensor, body) =>
    call('POST', at('sensors', sensor, 'fault-decisions'), { body: { ...body, by: who() } }),
  room: (range) => call('GET', '/api/room', { query: span(range) }),
  /**
   * Working out how each sensor reports reads a week of readings of each; only the page Sensors needs it.
   * @param outside whether to ask only for those that are in no container; @param container its id, for those in it
   */
  sensors: ({ activity = false, outside, container } = {}) =>
    call('GET', '/api/sensors', { query: { activity, outside, container } }),
  sensor: (sensor) => call('GET', at('sensors', sensor)),
  placeSensor: (sensor, body) => call('PUT', at('sensors', sensor, 'placement'), { body, timeoutMs: 60_000 }),
  moveSensor: (sensor, body) => call('POST', at('sensors', sensor, 'move'), { body, timeoutMs: 60_000 }),
  retireSensor: (sensor, body) => call('POST', at('sensors', sensor, 'retire'), { body, timeoutMs: 60_000 }),
  unretireSensor: (sensor) => call('POST', at('sensors', sensor, 'unretire')),
  replaceSensor: (sensor, body) => call('POST', at('sensors', sensor, 'replace'), { body, timeoutMs: 60_000 }),
  correctPlacements: (sensor, placements) =>
    call('PUT', at('sensors', sensor, 'placements'), { body: { placements }, timeoutMs: 60_000 }),
  describeSensor: (sensor, body) => call('PUT', at('sensors', sensor, 'details'), { body }),
  sensorAccounts: () => call('GET', '/api/sensor-accounts'),
  addSensorAccount: (body) => call('POST', '/api/sensor-accounts', { body }),
  replaceSensorPassword: (name) => call('POST', at('sensor-accounts', name, 'password')),
  changeSensorTopics: (name, body) => call('PUT', at('sensor-accounts', name, 'topics'), { body }),
  removeSensorAccount: (name) => call('DELETE', at('sensor-accounts', name)),
  calibrationPoints: (sensor) => call('GET', at('sensors', sensor, 'calibration-points')),
  addCalibrationPoint: (sensor, body) => call('POST', at('sensors', sensor, 'calibration-points'), { body }),
  removeCalibrationPoint: (sensor, point) => call('DELETE', at('sensors', sensor, 'calibration-points', point)),
  settling: (sensor, quantity) => call('GET', at('sensors', sensor, 'settling'), { query: { quantity } }),
  calibrate: (sensor, body) => call('PUT', at('sensors', sensor, 'calibration'), { body }),
  alerts: (state) => call('GET', '/api/alerts', { query: { state } }),
  alert: (id) => call('GET', at('alerts', id)),
  acknowledge: (id) => call('POST', at('alerts', id, 'acknowledge'), { body: { by: who() } }),
  shelve: (id, minutes, reason) => call('POST', at('alerts', id, 'shelve'), { body: { minutes, reason, by: who() } }),
  unshelve: (id) => call('POST', at('alerts', id, 'unshelve'), { body: { by: who() } }),
  alertPerformance: (range) => call('GET', '/api/alerts/performance', { query: span(range), timeoutMs: 60_000 }),
  alertRules: (id) => call('GET', at('containers', id, 'alert-rules')),
  changeAlertRules: (id, rules) => call('PUT', at('containers', id, 'alert-rules'), { body: { rules, by: who() } }),
  noticesOfAlerts: () => call('GET', '/api/alerts/notices'),
  notices: () => call('GET', '/api/notices'),
  notifiers: () => call('GET', '/api/notifiers'),
  testNotifier: (name) => call('POST', at('notifiers', name, 'test'), { timeoutMs: 60_000 }),
  tally: () => call('GET', '/api/tally'),
  labels: () => call('GET', '/api/labels'),
  addSpecies: (body) => call('POST', '/api/species', { body }),
  changeSpecies: (id, body) => call('PUT', at('species', id), { body }),
  addLot: (body) => call('POST', '/api/lots', { body }),
  changeLot: (id, body) => call('PUT', at('lots', id), { body }),
  sow: (body) => call('POST', '/api/sowings', { body }),
  /** An entry of the record; `body.entry` makes it count once, however often it is sent. */
  write: (path, body) => call('POST', path, { body }),
  entries: (sowing) => call('GET', at('sowings', sowing, 'entries')),
  /** @param picture a Blob, JPEG or PNG */
  putPhoto: (entry, picture) =>
    call('PUT', at('entries', entry, 'photo'), { body: picture, type: picture.type, timeoutMs: 60_000 }),
  importTable: (table, csv) => call('POST', at('import', table), { body: csv, type: 'text/csv', timeoutMs: 60_000 }),
  importRecord: (zip) => call('POST', '/api/record', { body: zip, type: 'application/zip', timeoutMs: 120_000 }),
  germination: (sowing) => call('GET', at('sowings', sowing, 'germination'), { timeoutMs: 60_000 }),
  heatCourse: (sowing) => call('GET', at('sowings', sowing, 'heat-course'), { timeoutMs: 60_000 }),
  path: (group) => call('GET', at('groups', group, 'path'), { timeoutMs: 60_000 }),
  viability: (species) => call('GET', at('species', species, 'viability')),
  thermalTime: (species) => call('GET', at('species', species, 'thermal-time'), { timeoutMs: 60_000 }),
  compareHeatSources: (species) => call('GET', '/api/compare/heat-sources', { query: { species } }),
  compareGermination: (a, b) =>
    call('GET', '/api/compare/germination', { query: { sowings: `${a},${b}` }, timeoutMs: 60_000 }),
  seasonReport: (range) => call('GET', '/api/seasons/report', { query: span(range), timeoutMs: 60_000 }),
  seasons: () => call('GET', '/api/seasons'),
  season: (id) => call('GET', at('seasons', id)),
  keepSeason: (body) => call('POST', '/api/seasons', { body, timeoutMs: 60_000 }),
  removeSeason: (id) => call('DELETE', at('seasons', id)),
  seedsNeeded: (body) => call('POST', '/api/sums/seeds-needed', { body }),
  ...fileCalls,
  messages: () => call('GET', '/api/messages'),
  message: (topic) => call('GET', '/api/messages/newest', { query: { topic } }),
  mappings: () => call('GET', '/api/mappings'),
  tryMapping: (body) => call('POST', '/api/mappings/trial', { body }),
  saveMapping: (body) => call('POST', '/api/mappings', { body }),
  removeMapping: (id) => call('DELETE', at('mappings', id)),
  rejects: (limit) => call('GET', '/api/rejects', { query: { limit } }),
};
