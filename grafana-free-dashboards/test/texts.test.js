// Texts of the pages: each language has every text, each text is used, and no module or HTML file has one of its own.

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { parse } from 'espree';

const ROOT = new URL('..', import.meta.url);
const NOT_PAGES = ['node_modules', 'test'];
const FOLDERS = readdirSync(ROOT, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && !NOT_PAGES.includes(entry.name))
  .map((entry) => entry.name);
/** A document has no texts but those of the frame and its own. */
const TRANSLATED = FOLDERS.filter((folder) => folder !== 'document');

const read = (path) => readFileSync(new URL(path, ROOT), 'utf8');
const filesOf = (folder, ending) => readdirSync(new URL(`${folder}/`, ROOT)).filter((name) => name.endsWith(ending));
const modulesOf = (folder) => filesOf(folder, '.js').filter((name) => !/^texts\.\w+\.js$/.test(name));
const textsOf = async (folder, language) => (await import(new URL(`${folder}/texts.${language}.js`, ROOT))).default;

/** The placeholders of a text: the names of its values. Of several forms or codes, the names of these. */
const valuesOf = (text) => {
  if (typeof text === 'string') return 'text';
  return typeof text === 'function'
    ? text
        .toString()
        .match(/^\(([^)]*)\)/)[1]
        .split(', ')
    : Object.keys(text).sort();
};

/** A text as it is written; of several forms, all. */
const shown = (text) => (typeof text === 'object' ? Object.values(text).join(' | ') : String(text));

/** Key to kind and placeholders, so that two languages can be compared. */
const shapeOf = ({ html = {}, ...texts }) => ({
  html: Object.keys(html).sort(),
  texts: Object.fromEntries(
    Object.keys(texts)
      .sort()
      .map((key) => [key, valuesOf(texts[key])]),
  ),
});

for (const folder of TRANSLATED) {
  test(`${folder}: German has the same texts with the same values as English`, async () => {
    assert.deepEqual(shapeOf(await textsOf(folder, 'de')), shapeOf(await textsOf(folder, 'en')));
  });

  test(`${folder}: no sentence is the same in German`, async () => {
    const all = async (language) => {
      const { html = {}, ...texts } = await textsOf(folder, language);
      return { ...html, ...texts };
    };
    const [de, en] = [await all('de'), await all('en')];
    const words = (text) =>
      shown(text)
        .replace(/^\(.*?=>|\$\{[^}]*\}/gs, '')
        .match(/\p{L}{2,}/gu) ?? [];
    const sentences = Object.keys(en).filter((key) => words(en[key]).length > 2);
    assert.deepEqual(
      sentences.filter((key) => shown(de[key]) === shown(en[key])),
      [],
    );
  });

  test(`${folder}: each text is used, and each that is used exists`, async () => {
    const { html = {}, ...texts } = await textsOf(folder, 'en');
    const code = modulesOf(folder).map((name) => read(`${folder}/${name}`));
    const used = code.flatMap((text) => [...text.matchAll(/(?<![./])\btexts\.(\w+)/g)].map((match) => match[1]));
    assert.deepEqual([...new Set(used)].sort(), Object.keys(texts).sort());
    const places = filesOf(folder, '.html').flatMap((name) =>
      [...read(`${folder}/${name}`).matchAll(/\{\{(\w+)\}\}/g)].map((match) => match[1]),
    );
    assert.deepEqual([...new Set(places)].sort(), Object.keys(html).sort());
  });

  test(`${folder}: no text stands in its modules`, () => {
    const modules = modulesOf(folder);
    const found = modules.flatMap((name) => strayTexts(read(`${folder}/${name}`)).map((text) => `${name}: ${text}`));
    assert.deepEqual(found, []);
  });

  test(`${folder}: no text stands in its HTML`, () => {
    for (const name of filesOf(folder, '.html')) {
      const html = read(`${folder}/${name}`)
        .replace(/<!--.*?-->|\{\{\w+\}\}|\bTepidarium\b/gs, '')
        .replace(/\b(?:aria-label|title|alt|placeholder)="([^"]*)"/g, '>$1<')
        .replace(/<[^>]*>/g, '');
      assert.doesNotMatch(html, LETTERS, name);
    }
  });
}

test('a text in a module is found, a code is not', () => {
  const stray = (code) => strayTexts(code).length;
  assert.equal(stray("setText(place, 'Nothing yet.');"), 1);
  assert.equal(stray("h('p', { class: 'lead' }, 'empty');"), 1);
  assert.equal(stray("h('p', { 'aria-label': word ? 'one' : other });"), 1);
  assert.equal(stray("place.replaceChildren(link, '. Next.');"), 1);
  assert.equal(stray('button.title = `Signed in as ${name}`;'), 1);
  assert.equal(stray('const words = { act: `Needs you`, open: 1 };'), 1);
  assert.equal(stray("h('p', { class: 'lead quiet', id: 'x' }, texts.empty);"), 0);
  assert.equal(stray("if (state === 'alert') call('GET', '/api/health');"), 0);
});

const LETTERS = /\p{L}{2,}/u;
/** Properties and attributes that people read. */
const READ = new Set([
  'title',
  'label',
  'words',
  'help',
  'text',
  'caption',
  'aria-label',
  'placeholder',
  'alt',
  'note',
]);
/** Names that are the same in every language. */
const NAMES = /\b(?:Tepidarium|Edge|Firefox|Chrome|Safari|Android|Windows|Linux|Europe\/Berlin|UTF-8)\b/g;
/** Calls that show their texts. */
const SHOWN = new Set(['setText', 'announce', 'replaceChildren']);
/** Calls whose texts nobody reads, or which go to the console. */
const UNREAD = new Set([
  'call',
  'warn',
  'querySelector',
  'querySelectorAll',
  'closest',
  'matches',
  'setItem',
  'RegExp',
]);

/** Literals that a person would read: children of elements, texts of some attributes, and anything like a sentence. */
function strayTexts(code) {
  const found = [];
  const visit = (node, up) => {
    if (node.type === 'ImportDeclaration') return;
    const text = textOf(node);
    if (text !== null && isRead(text.replace(NAMES, ''), node, up)) found.push(text);
    for (const [name, part] of Object.entries(node)) {
      for (const child of [part].flat()) {
        if (typeof child?.type === 'string') visit(child, [{ node, name, child }, ...up]);
      }
    }
  };
  visit(parse(code, { ecmaVersion: 'latest', sourceType: 'module' }), []);
  return found;
}

function textOf(node) {
  if (node.type === 'Literal' && typeof node.value === 'string') return node.value;
  return node.type === 'TemplateLiteral' ? node.quasis.map((part) => part.value.cooked).join('…') : null;
}

function isRead(text, node, up) {
  if (!LETTERS.test(text)) return false;
  const outer = up.find(
    ({ node: one }) =>
      !['ConditionalExpression', 'LogicalExpression', 'ArrayExpression', 'TemplateLiteral'].includes(one.type),
  );
  const callee = outer.node.callee?.property?.name ?? outer.node.callee?.name;
  if (callee === 'h' || callee === 'svg') return outer.node.arguments.indexOf(outer.child) >= 2;
  if (SHOWN.has(callee)) return true;
  if (UNREAD.has(callee) || outer.node.type === 'BinaryExpression') return false;
  if (outer.node.type === 'Property' && outer.name === 'value') {
    const name = outer.node.key.name ?? outer.node.key.value;
    if (READ.has(name)) return true;
    if (name === 'class') return false;
  }
  if (outer.node.type === 'AssignmentExpression' && READ.has(outer.node.left.property?.name)) return true;
  return looksLikeText(text);
}

/** A capital letter and small ones, or words with spaces and a punctuation mark; not an address, a selector or a class. */
const looksLikeText = (text) =>
  !/^[#./?[]\S*$|^[a-z]+[A-Z]\w*$|\[data-/.test(text) &&
  (/^\p{Lu}\p{Ll}+(?:[ .,:…]|$)/u.test(text) || /\p{Ll}{2,} \p{L}.*[.,:;!?…]/u.test(text));
