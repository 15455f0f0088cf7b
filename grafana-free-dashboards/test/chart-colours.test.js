// Lines that share a chart look different to everybody, and stand out from the ground, by day and by lamplight.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { MOST_LINES } from '../chart-parts/colours.js';

/** WCAG 2.2, 1.4.11: graphics that are needed to understand the content. */
const LEAST_CONTRAST = 3;
/**
 * The least distance of two lines in Oklab (B. Ottosson, "A perceptual color space for image processing", 2020).
 * Black and white have the distance 1. Side by side, 0.02 is just noticed: common practice, no source.
 */
const LEAST_DISTANCE = 0.1;

/**
 * What a person with each kind of colour vision sees, for linear sRGB: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes,
 * "A physiologically-based model for simulation of color vision deficiency", IEEE Trans. Vis. Comput. Graph. 15 (2009),
 * 1291-1298, severity 1.0.
 */
const VISION = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** Linear sRGB of a colour such as #9a4226 (IEC 61966-2-1). */
const linear = (hex) =>
  [1, 3, 5]
    .map((i) => parseInt(hex.slice(i, i + 2), 16) / 255)
    .map((value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4));

const times = (matrix, vector) => matrix.map((row) => row.reduce((sum, factor, i) => sum + factor * vector[i], 0));
const seen = (hex, matrix) => times(matrix, linear(hex)).map((value) => Math.min(1, Math.max(0, value)));

function oklab(rgb) {
  const cones = times(
    [
      [0.4122214708, 0.5363325363, 0.0514459929],
      [0.2119034982, 0.6806995451, 0.1073969566],
      [0.0883024619, 0.2817188376, 0.6299787005],
    ],
    rgb,
  ).map(Math.cbrt);
  return times(
    [
      [0.2104542553, 0.793617785, -0.0040720468],
      [1.9779984951, -2.428592205, 0.4505937099],
      [0.0259040371, 0.7827717662, -0.808675766],
    ],
    cones,
  );
}

const distance = (a, b, matrix) => {
  const [one, other] = [a, b].map((hex) => oklab(seen(hex, matrix)));
  return Math.hypot(...one.map((value, i) => value - other[i]));
};

function contrast(a, b) {
  const [light, dark] = [a, b].map((hex) => times([[0.2126, 0.7152, 0.0722]], linear(hex))[0]).sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

/** The custom properties of the first rule of that selector. */
function properties(file, selector) {
  const css = readFileSync(new URL(`../${file}`, import.meta.url), 'utf8');
  const start = css.indexOf(`${selector} {`);
  assert.ok(start >= 0, `${selector} in ${file}`);
  const rule = css.slice(start, css.indexOf('}', start));
  return Object.fromEntries([...rule.matchAll(/(--[\w-]+): (#[0-9a-f]{3,6})\b/g)].map((match) => [match[1], match[2]]));
}

const long = (hex) => (hex.length === 4 ? `#${[...hex.slice(1)].map((digit) => digit + digit).join('')}` : hex);
const day = { ...properties('shared/style.css', ':root'), ...properties('chart-parts/colours.css', ':root') };
const dark = readFileSync(new URL('../shared/style.css', import.meta.url), 'utf8').indexOf(
  'prefers-color-scheme: dark',
);
const night = {
  ...day,
  ...propertiesAfter('shared/style.css', dark),
  ...properties('chart-parts/colours.css', ':root:not(.on-paper)'),
};
const paper = { ...day, ...properties('chart-parts/colours.css', ':root.on-paper') };

function propertiesAfter(file, start) {
  const css = readFileSync(new URL(`../${file}`, import.meta.url), 'utf8').slice(start);
  const rule = css.slice(css.indexOf('{', css.indexOf(':root')), css.indexOf('}'));
  return Object.fromEntries([...rule.matchAll(/(--[\w-]+): (#[0-9a-f]{3,6})\b/g)].map((match) => [match[1], match[2]]));
}

/** The lines that can stand in one chart. */
const CHARTS = {
  'several containers': Array.from({ length: MOST_LINES }, (_, i) => `--line-${i + 1}`),
  'a container and the room': ['--line-1', '--room'],
};

for (const [scheme, colours] of Object.entries({ day, night, paper })) {
  for (const [chart, names] of Object.entries(CHARTS)) {
    test(`${scheme}, ${chart}: each line stands out from the ground`, () => {
      for (const name of names) {
        const found = contrast(colours[name], long(colours['--card']));
        assert.ok(found >= LEAST_CONTRAST, `${name} ${colours[name]}: contrast ${found.toFixed(2)}`);
      }
    });

    for (const [vision, matrix] of Object.entries(VISION)) {
      test(`${scheme}, ${chart}: no two lines look alike with ${vision}`, () => {
        names.forEach((name, i) => {
          for (const other of names.slice(0, i)) {
            const found = distance(colours[name], colours[other], matrix);
            assert.ok(found >= LEAST_DISTANCE, `${name} and ${other}: ${found.toFixed(3)}`);
          }
        });
      });
    }
  }
}

test('the measures find what is known', () => {
  // Black and white have contrast 21 and distance 1; red and green look alike without green cones, not to others.
  assert.ok(Math.abs(contrast('#000000', '#ffffff') - 21) < 0.01);
  assert.ok(Math.abs(distance('#000000', '#ffffff', VISION.usual) - 1) < 0.001);
  assert.ok(distance('#a06000', '#708000', VISION.deuteranopia) < LEAST_DISTANCE);
  assert.ok(distance('#a06000', '#708000', VISION.usual) > LEAST_DISTANCE);
});
