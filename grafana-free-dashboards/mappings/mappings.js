// Runs the page Mapping rules: pick a message, point at its fields, see the reading, save the rule.

import { api } from '../shared/api.js';
import { byId, whileBusy } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { choiceForm } from './choice.js';
import { drawMessages, drawRules } from './lists.js';
import { byteParts, fieldParts, levelParts } from './parts.js';
import { bytesOf, encodingOf, ruleOf, ruleWords, without, withoutBytes, workOn } from './rule.js';
import { showTrial } from './trial.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 5_000;

let units = [];
let work = null;
let trials = 0;
/** The topic that the address names, until its message is picked. A second pick would undo taps. */
let wanted = new URLSearchParams(location.search).get('topic');

startPage({ current: '/rejects.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setInterval(() => load().catch(() => {}), LOOK_AGAIN_MS);

async function load() {
  const [{ messages }, rules] = await Promise.all([api.messages(), api.mappings()]);
  byId('loading')?.remove();
  units = rules.units;
  drawMessages(messages, pick);
  drawRules(rules, remove);
  if (work !== null || !messages.some(({ topic }) => topic === wanted)) return;
  const topic = wanted;
  wanted = null;
  await pick(topic);
}

const remove = (id) => api.removeMapping(id).then(load);

async function pick(topic) {
  work = workOn(await api.message(topic));
  byId('work').hidden = false;
  byId('saved').replaceChildren();
  draw();
  byId('topic-title').scrollIntoView({ block: 'start' });
}

function draw() {
  byId('levels').replaceChildren(...levelParts(work.levels, setRole));
  const used = Object.entries(work.values);
  byId('fields').replaceChildren(
    ...fieldParts(work, {
      useOf: (pointer) => used.find(([, value]) => value.firstByte === undefined && value.pointer === pointer)?.[0],
      select: (field) => select({ field }),
      unpack: (field) => unpack(field, encodingOf(field.value)),
    }),
  );
  drawBytes(used);
  drawChoice();
  tryRule().catch((problem) => showProblem(byId('reading'), problem));
}

function setRole(index, role) {
  work.levels.forEach((level, i) => {
    if (role === 'sensor' && level.role === 'sensor' && i !== index) level.role = 'same';
  });
  work.levels[index].role = role;
  draw();
}

function unpack({ pointer, value }, encoding) {
  work.bytes = { pointer, encoding };
  work.packed = bytesOf(value, encoding);
  work.values = withoutBytes(work.values, pointer);
  work.selected = null;
  draw();
}

function drawBytes(used) {
  byId('bytes').replaceChildren(
    ...(work.bytes === null
      ? []
      : byteParts(work, {
          useOf: (index) => used.find(([, v]) => index >= v.firstByte && index < v.firstByte + (v.length ?? 1))?.[0],
          select: (index) => select({ index }),
          setEncoding: (encoding) =>
            unpack({ pointer: work.bytes.pointer, value: textAt(work.bytes.pointer) }, encoding),
        })),
  );
}

const textAt = (pointer) => work.fields.find((field) => field.pointer === pointer)?.value ?? '';

function select(selected) {
  work.selected = selected;
  draw();
  byId('choice').querySelector('select')?.focus();
}

function drawChoice() {
  byId('choice').replaceChildren();
  if (work.selected === null) return;
  byId('choice').append(
    choiceForm(work, units, {
      use: (quantity, value) => {
        if (quantity === 'at') work.at = value.pointer;
        else work.values = { ...work.values, [quantity]: value };
        work.selected = null;
        draw();
      },
      drop: () => {
        work.values = without(work.values, work.selected);
        if (work.at === work.selected.field?.pointer) work.at = null;
        work.selected = null;
        draw();
      },
    }),
  );
}

/** Asks the service what the rule gives. An answer that comes after a later question is ignored. */
async function tryRule() {
  trials += 1;
  const asked = trials;
  byId('save').disabled = true;
  const empty = Object.keys(work.values).length === 0;
  if (empty) return showTrial(byId('reading'), null, work, units);
  const { topic, base64 } = work.message;
  const trial = await api.tryMapping({ topic, base64, rule: ruleOf(work) });
  if (asked !== trials) return;
  byId('save').disabled = trial.readings.length === 0;
  return showTrial(byId('reading'), trial, work, units);
}

byId('save').addEventListener('click', (event) =>
  whileBusy(event.target, byId('saved'), async () => {
    const { rule } = await api.saveMapping(ruleOf(work));
    work = null;
    byId('work').hidden = true;
    history.replaceState(null, '', location.pathname);
    await load();
    byId('rules-title').scrollIntoView({ block: 'center' });
    byId('announce').textContent = texts.saved(ruleWords(rule, units));
  }),
);

function showTrouble(problem) {
  const place = byId('loading');
  if (place) showProblem(place, problem);
}
