import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';

const NOW = Date.parse('2026-03-01T12:00:00Z');
const ago = (seconds) => new Date(NOW - seconds * 1000).toISOString();

afterEach(() => f.setTemperatureUnit('C'));

test('what is unknown is a dash, never a number', () => {
  for (const show of [
    f.temperature,
    f.humidity,
    f.lux,
    f.volts,
    f.degreeHours,
    f.luxHours,
    f.share,
    t.hours,
    t.duration,
  ]) {
    for (const nothing of [null, undefined, NaN]) assert.equal(show(nothing), '–');
  }
});

test('temperatures in either unit, differences and degree-hours without the offset', () => {
  assert.equal(f.temperature(31.24), '31.2 °C');
  assert.equal(f.temperature(-0.04), '0.0 °C');
  assert.equal(f.temperature(-3), '−3.0 °C');
  f.setTemperatureUnit('F');
  assert.equal(f.temperature(30), '86.0 °F');
  assert.equal(f.temperatureDifference(5), '9.0 °F');
  assert.equal(f.degreeHours(100), '180 °F·h');
  assert.equal(f.fromUnit(f.toUnit(29.5)), 29.5);
});

test('zero degrees and zero lux are values', () => {
  assert.equal(f.temperature(0), '0.0 °C');
  assert.equal(f.lux(0), '0 lux');
  assert.equal(f.degreeHours(0), '0.0 °C·h');
});

test('degree-hours lose digits as they grow', () => {
  assert.equal(f.degreeHours(12.34), '12.3 °C·h');
  assert.equal(f.degreeHours(1234.5), '1235 °C·h');
  assert.equal(f.degreeHours(12345), '12\u202f345 °C·h');
});

test('humidity near the top is saturated', () => {
  assert.equal(f.humidity(94.4), '94 %');
  assert.equal(f.humidity(95), 'saturated');
  assert.equal(f.humidity(103), 'saturated');
});

test('a share is rounded neither to all nor to none', () => {
  assert.equal(f.share(1), '100 %');
  assert.equal(f.share(0.99999), 'over 99.9 %');
  assert.equal(f.share(0.00001), 'under 0.1 %');
  assert.equal(f.share(0.5), '50.0 %');
});

test('lengths of time', () => {
  assert.equal(t.duration(42_000), '42 s');
  assert.equal(t.duration(59 * 60_000 + 59_000), '59 min');
  assert.equal(t.duration(2 * 3600_000), '2 h');
  assert.equal(t.duration(130 * 60_000), '2 h 10 min');
  assert.equal(t.duration(25 * 3600_000), '1 day 1 h');
  assert.equal(t.hours(23.9999), '1 day');
  assert.equal(t.hours(0.01), '36 s');
});

test('ages, and a clock ahead of ours', () => {
  assert.equal(t.age(ago(5), NOW), 'just now');
  assert.equal(t.age(ago(47), NOW), '40 s ago');
  assert.equal(t.age(ago(3 * 60), NOW), '3 min ago');
  assert.equal(t.age(ago(-30), NOW), 'just now');
  assert.equal(t.age(ago(-600), NOW), 'in 10 min');
  assert.equal(t.age('nonsense', NOW), '–');
});

test('moments name the day unless it is today', () => {
  assert.equal(t.moment('2026-03-01T06:05:00Z', NOW, 'UTC'), '06:05');
  assert.equal(t.stamp('2026-03-01T06:05:00Z', NOW, 'UTC'), 'today 06:05');
  assert.equal(t.moment('2026-02-28T06:05:00Z', NOW, 'UTC'), 'Sat 28 Feb 06:05');
  assert.equal(t.moment('2025-12-31T23:05:00Z', NOW, 'Europe/Berlin'), 'Thu 1 Jan 00:05');
  assert.equal(t.moment('2025-12-31T06:05:00Z', NOW, 'UTC'), 'Wed 31 Dec 2025 06:05');
});

test('days begin at local midnight, also on days of 23 and 25 hours', () => {
  const begins = (day) => new Date(t.startOfDay(day, 'Europe/Berlin')).toISOString();
  assert.equal(begins('2026-03-29'), '2026-03-28T23:00:00.000Z');
  assert.equal(begins('2026-03-30'), '2026-03-29T22:00:00.000Z');
  assert.equal(begins('2026-10-25'), '2026-10-24T22:00:00.000Z');
  assert.equal(begins('2026-10-26'), '2026-10-25T23:00:00.000Z');
  assert.equal(new Date(t.startOfDay('2026-07-01', 'America/Los_Angeles')).toISOString(), '2026-07-01T07:00:00.000Z');
  assert.equal(new Date(t.startOfDay('2026-07-01', 'Pacific/Kiritimati')).toISOString(), '2026-06-30T10:00:00.000Z');
});

test('the day after', () => {
  assert.equal(t.nextDay('2026-02-28'), '2026-03-01');
  assert.equal(t.nextDay('2026-12-31'), '2027-01-01');
});

test('a typed date and time is one of the zone, also around the nights when clocks change', () => {
  const utc = (typed, zone) => new Date(t.typedTime(typed, zone)).toISOString();
  assert.equal(utc('2026-07-01T12:00', 'Europe/Berlin'), '2026-07-01T10:00:00.000Z');
  assert.equal(utc('2026-03-29T01:59', 'Europe/Berlin'), '2026-03-29T00:59:00.000Z');
  assert.equal(utc('2026-03-29T03:00', 'Europe/Berlin'), '2026-03-29T01:00:00.000Z');
  // 02:30 does not exist in that night: as many minutes after the change.
  assert.equal(utc('2026-03-29T02:30', 'Europe/Berlin'), '2026-03-29T01:30:00.000Z');
  // 02:30 comes twice in that night: the first.
  assert.equal(utc('2026-10-25T02:30', 'Europe/Berlin'), '2026-10-25T00:30:00.000Z');
  assert.equal(utc('2026-10-25T03:00', 'Europe/Berlin'), '2026-10-25T02:00:00.000Z');
  assert.equal(utc('2026-11-01T01:30', 'America/New_York'), '2026-11-01T05:30:00.000Z');
  assert.equal(utc('2026-03-08T02:30', 'America/New_York'), '2026-03-08T07:30:00.000Z');
  assert.equal(utc('2026-01-01T00:10', 'Asia/Kolkata'), '2025-12-31T18:40:00.000Z');
  assert.ok(Number.isNaN(t.typedTime('soon', 'UTC')));
});

test('what a control shows is typed back to the same minute', () => {
  for (const zone of ['Europe/Berlin', 'America/New_York', 'Asia/Kolkata', 'UTC']) {
    for (let at = Date.UTC(2026, 2, 28); at < Date.UTC(2026, 2, 31); at += 1_800_000)
      assert.equal(t.typedTime(t.inputOf(at, zone), zone), at, `${zone} ${at}`);
  }
  assert.equal(t.inputOf('2026-10-25T01:30:00Z', 'Europe/Berlin'), '2026-10-25T02:30');
  assert.equal(t.inputOf(null), '');
});

test('the date of an axis has the clock of its zone, also where clocks change', () => {
  for (const [at, clock] of [
    ['2026-03-29T00:59:59.500Z', [2026, 2, 29, 1, 59, 59]],
    ['2026-03-29T01:00:00Z', [2026, 2, 29, 3, 0, 0]],
    ['2026-01-01T00:00:00Z', [2026, 0, 1, 1, 0, 0]],
  ])
    assert.deepEqual(t.clockDate(Date.parse(at), 'Europe/Berlin'), new Date(...clock, at.includes('.5') ? 500 : 0));
});
