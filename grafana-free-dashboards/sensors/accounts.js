// The accounts of sensors: list, new account, new password, and the text for the firmware, which is shown once.

import { api } from '../shared/api.js';
import { copyText } from '../shared/copy.js';
import { actionButton, byId, h, reconcile, setText, svg, whileBusy } from '../shared/dom.js';
import { topicsForm } from './account-topics.js';
import { accountWords, anonymousWords, refusedWords, topicsOf } from './account-words.js';
import { texts } from './texts.js';

/** The accounts by name, as they were drawn last. */
const known = new Map();

export function makeAccounts() {
  byId('add-account').addEventListener('submit', (event) => {
    event.preventDefault();
    whileBusy(event.target.querySelector('button'), byId('account-output'), async () => {
      const reads = topicsOf(byId('account-reads').value);
      const made = await api.addSensorAccount({
        name: byId('account-name').value.trim(),
        // An account that only reads publishes nowhere.
        topics: topicsOf(byId('account-topics').value) ?? (reads && []),
        reads,
      });
      byId('add-account').reset();
      await drawAccounts();
      showOnce(made);
    });
  });
}

/** Draws the part again; only an owner may see the accounts. */
export async function drawAccounts() {
  const { role } = await api.session();
  byId('accounts-part').hidden = role !== 'own';
  if (role !== 'own') return;
  const state = await api.sensorAccounts();
  setText(byId('anonymous'), anonymousWords(state));
  setText(byId('refused'), refusedWords(state.refused));
  byId('add-account').hidden = !state.embedded;
  reconcile(byId('accounts'), state.accounts, ({ name }) => name, makeRow, updateRow);
}

function makeRow({ name }) {
  const output = h('div', { class: 'wide', role: 'status' });
  const replace = actionButton({ 'aria-label': texts.newPasswordFor(name) }, texts.newPassword, output, async () => {
    const made = await api.replaceSensorPassword(name);
    await drawAccounts();
    showOnce(made);
  });
  const remove = actionButton({ 'aria-label': texts.removeTheAccount(name) }, texts.remove, output, async () => {
    await api.removeSensorAccount(name);
    byId('account-output').replaceChildren();
    await drawAccounts();
  });
  return h(
    'li',
    { data: { account: name } },
    h('p', { class: 'who' }, h('strong', {}, name), ' ', h('span', { class: 'quiet state' })),
    h('p', { class: 'rights' }),
    h('div', { class: 'actions' }, replace, remove),
    topicsForm(name, () => known.get(name), output, drawAccounts),
    output,
  );
}

function updateRow(item, account) {
  known.set(account.name, account);
  setText(item.querySelector('.state'), account.connected ? texts.connected : texts.notConnected);
  setText(item.querySelector('.rights'), accountWords(account));
}

/** Shows the lines for the firmware. The service does not give them again. */
function showOnce({ account, firmware, code }) {
  const title = h('h3', { tabindex: '-1' }, texts.settingsFor(account.name));
  byId('account-output').replaceChildren(
    h(
      'div',
      { class: 'done once' },
      title,
      h('p', {}, texts.putTheseLinesInThe),
      h('div', { class: 'once-parts' }, h('pre', { class: 'secret', tabindex: '0' }, firmware), drawing(code)),
      h('div', { class: 'actions' }, copyText(firmware, texts.copy)),
    ),
  );
  title.focus();
}

function drawing({ side, path }) {
  return svg(
    'svg',
    {
      viewBox: `0 0 ${side} ${side}`,
      class: 'code',
      role: 'img',
      'aria-label': texts.qrCodeWithTheSame,
      'shape-rendering': 'crispEdges',
    },
    svg('rect', { width: side, height: side, fill: '#fff' }),
    svg('path', { d: path, fill: '#000' }),
  );
}
