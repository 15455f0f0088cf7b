import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { api } from '../shared/api.js';
import { learnTime, now } from '../shared/clock.js';
import { readForm } from '../shared/container-form.js';
import { placeOn } from '../shared/gauge.js';
import { liveStream } from '../shared/live.js';
import { placeOf } from '../shared/sensor-place.js';
import { sparkPath } from '../shared/spark.js';

const typed = (more = {}) => ({
  name: ' Jar 1 ',
  kind: 'jar',
  heatSource: '',
  base: '15',
  ceiling: '',
  temperatureLow: '29,5',
  temperatureHigh: '34',
  lightHigh: '1',
  humidityLow: '80',
  ...more,
});
const realFetch = globalThis.fetch;
afterEach(() => {
  globalThis.fetch = realFetch;
  learnTime(new Date().toISOString());
});

test('the form: a comma is a decimal point, an empty ceiling is none', () => {
  const { body, problems } = readForm(typed());
  assert.deepEqual(problems, []);
  assert.deepEqual(body, {
    name: 'Jar 1',
    kind: 'jar',
    heatSource: null,
    room: '',
    base: 15,
    ceiling: null,
    band: { temperature: { low: 29.5, high: 34 }, light: { high: 1 }, humidity: { low: 80 } },
  });
});

test('the form names each field that is wrong', () => {
  const { problems } = readForm(
    typed({ name: ' ', base: 'warm', ceiling: '10', temperatureLow: '35', humidityLow: '101' }),
  );
  assert.deepEqual(
    problems.map((one) => one.field),
    ['name', 'base', 'humidityLow', 'temperatureHigh'],
  );
});

test('the tube: the band is its middle, and what is far off stays at the end', () => {
  assert.deepEqual(placeOn(29.5, 29.5, 34), { place: 0.7, off: false });
  assert.ok(Math.abs(placeOn(34, 29.5, 34).place - 0.3) < 1e-9);
  assert.deepEqual(placeOn(-5, 29.5, 34), { place: 1, off: true });
  assert.deepEqual(placeOn(60, 29.5, 34), { place: 0, off: true });
});

test('the thin line breaks at gaps and shows lone samples', () => {
  assert.equal(
    sparkPath(
      [0, 1, 2, 3, 4],
      [1, 2, null, 3, null],
      (x) => x,
      (y) => y,
    ),
    'M0.0 1.0L1.0 2.0M3.0 3.0h0.01',
  );
});

test('where a sensor is now', () => {
  const sensor = {
    placements: [
      { container: 'a', from: '2026-01-01T00:00:00Z', until: '2026-02-01T00:00:00Z' },
      { container: 'b', from: '2026-02-01T00:00:00Z', until: null },
    ],
  };
  assert.equal(placeOf(sensor, Date.parse('2026-01-15T00:00:00Z')), 'a');
  assert.equal(placeOf(sensor, Date.parse('2026-02-01T00:00:00Z')), 'b');
  assert.equal(placeOf(sensor, Date.parse('2025-01-01T00:00:00Z')), null);
});

test('problem details reach the reader; no answer is told as such', async () => {
  globalThis.fetch = async () =>
    new Response(
      JSON.stringify({ type: 'urn:tepidarium:problem:not-found', detail: 'No.', field: 'name', rule: 'missing' }),
      { status: 400 },
    );
  await assert.rejects(api.createContainer({}), (problem) => {
    assert.equal(problem.message, 'Missing: the name.');
    problem.nameFields({ elements: { namedItem: () => ({ labels: [{ textContent: 'Label (°C)' }] }) } });
    assert.equal(problem.message, 'Missing: Label.');
    const dataset = { group: 'Too cold' };
    problem.nameFields({ elements: { namedItem: () => ({ labels: [{ textContent: 'Limit (°C)' }], dataset }) } });
    return problem.message === 'Missing: Too cold: Limit.' && problem.missing && !problem.unreachable;
  });
  globalThis.fetch = async () => new Response('<html>', { status: 502 });
  await assert.rejects(api.containers(), (problem) => problem.status === 502 && problem.unreachable);
  globalThis.fetch = async () => {
    throw new TypeError('refused');
  };
  await assert.rejects(api.containers(), (problem) => problem.unreachable && /does not answer/.test(problem.message));
});

test('ids are encoded on their way', async () => {
  let asked = '';
  globalThis.fetch = async (url) => {
    asked = url;
    return Response.json({});
  };
  await api.readings('a/b c', { from: 0, to: 1000, points: 5 });
  assert.equal(
    asked,
    '/api/containers/a%2Fb%20c/readings?from=1970-01-01T00%3A00%3A00.000Z&to=1970-01-01T00%3A00%3A01.000Z&points=5',
  );
});

test('ages follow the clock of the service', ({ mock }) => {
  const device = Date.parse('2026-03-01T06:00:00Z');
  mock.timers.enable({ apis: ['Date'], now: device });
  learnTime('2026-03-01T06:10:00Z');
  assert.equal(now(), device + 600_000);
  learnTime('nonsense');
  assert.equal(now(), device + 600_000);
  mock.timers.tick(5000);
  assert.equal(now(), device + 605_000);
});

class FakeSource extends EventTarget {
  static all = [];
  constructor() {
    super();
    FakeSource.all.push(this);
  }

  close() {
    this.closed = true;
  }
}

test('the stream reconnects by itself and survives an unreadable event', ({ mock }) => {
  mock.timers.enable({ apis: ['setTimeout', 'setInterval'] });
  const states = [];
  const heard = [];
  const stream = liveStream({
    Source: FakeSource,
    handlers: { sensor: (sensor) => heard.push(sensor) },
    onState: (state) => states.push(state),
    probe: async () => {},
  });
  const first = FakeSource.all.at(-1);
  first.onopen();
  const quiet = console.warn;
  console.warn = () => {};
  first.dispatchEvent(new MessageEvent('sensor', { data: '{broken' }));
  console.warn = quiet;
  first.dispatchEvent(new MessageEvent('sensor', { data: '{"sensor":"a"}' }));
  first.onerror();
  assert.ok(first.closed);
  mock.timers.tick(999);
  assert.equal(FakeSource.all.at(-1), first);
  mock.timers.tick(1);
  const second = FakeSource.all.at(-1);
  assert.notEqual(second, first);
  second.onopen();
  stream.close();
  assert.deepEqual(states, ['connecting', 'live', 'down', 'live']);
  assert.deepEqual(heard, [{ sensor: 'a' }]);
  assert.ok(second.closed);
});
