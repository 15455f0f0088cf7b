// Spaces and sizes of text come from the steps in shared/scale.css, so that pages look alike.

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

const PAGES = new URL('..', import.meta.url);
const SCALE = 'shared/scale.css';
const DECLARATION = /(?<![\w-])((?:margin|padding)[a-z-]*|(?:row-|column-)?gap|font(?:-size)?)\s*:\s*([^;}]+)/g;
const RAW = /(?<![\w-])-?(?:\d*\.)?\d+(?:px|rem)\b/g;
/** Text in drawings is measured in units of the drawing. */
const EXCEPTIONS = [
  'shared/style.css font: 12px var(--sans)',
  'shared/style.css font: 700 20px var(--heading)',
  'tally/tally.css font: 13px var(--sans)',
];

const sheets = readdirSync(PAGES, { withFileTypes: true })
  .filter((folder) => folder.isDirectory() && folder.name !== 'node_modules')
  .flatMap((folder) => readdirSync(new URL(`${folder.name}/`, PAGES)).map((file) => `${folder.name}/${file}`))
  .filter((file) => file.endsWith('.css'));

const read = (file) => readFileSync(new URL(file, PAGES), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');

/** Margins, paddings, gaps and sizes of text with a length of their own. 0 and borders of 1px are no such lengths. */
function rawLengths(file, css) {
  return [...css.matchAll(DECLARATION)]
    .filter(([, , value]) =>
      (value.match(RAW) ?? []).some((length) => Number.parseFloat(length) !== 0 && length !== '1px'),
    )
    .map(([, name, value]) => `${file} ${name}: ${value.trim()}`);
}

test('spaces and sizes of text have the names of the scale', () => {
  assert.deepEqual(
    rawLengths('a', 'p { margin: 0 .5rem; gap: 3px } q { padding: 1px; padding-left: var(--space-4) }'),
    ['a margin: 0 .5rem', 'a gap: 3px'],
  );
  const raw = sheets.filter((file) => file !== SCALE).flatMap((file) => rawLengths(file, read(file)));
  assert.deepEqual(raw.sort(), EXCEPTIONS.sort());
});

test('each name that is used is a step of the scale, and each step is used', () => {
  const steps = [...read(SCALE).matchAll(/(--(?:space|text)-[\w-]+):/g)].map(([, name]) => name);
  const used = sheets.flatMap((file) =>
    [...read(file).matchAll(/var\((--(?:space|text)-[\w-]+)/g)].map(([, name]) => name),
  );
  assert.deepEqual([...new Set(used)].sort(), [...steps].sort());
});
