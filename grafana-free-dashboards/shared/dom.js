// Builds elements from data without parsing it as HTML, since names of sensors and containers are not trusted.

const SVG = 'http://www.w3.org/2000/svg';

/** Makes an element. `props` holds attributes, plus `on` (listeners), `data` (dataset) and `class`. */
export function h(tag, props, ...children) {
  return fill(document.createElement(tag), props, children);
}

/** The same for drawings. */
export function svg(tag, props, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

function fill(element, props, children) {
  for (const [name, value] of Object.entries(props ?? {})) setProp(element, name, value);
  element.append(...children.flat(3).filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

function setProp(element, name, value) {
  if (name === 'on') {
    for (const [type, listener] of Object.entries(value)) element.addEventListener(type, listener);
  } else if (name === 'data') {
    Object.assign(element.dataset, value);
  } else if (value !== null && value !== undefined && value !== false) {
    element.setAttribute(name, value === true ? '' : String(value));
  }
}

export const byId = (id) => document.getElementById(id);

/** Changes the text only if it differs, which keeps selections and silences screen readers. */
export function setText(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * Adds, moves and removes children of `parent` to match `items`. Elements of items that stay are reused: focus, open
 * details and half-filled fields survive a live update.
 */
export function reconcile(parent, items, keyOf, make, update) {
  const old = new Map([...parent.children].map((child) => [child.dataset.key, child]));
  let place = parent.firstElementChild;
  for (const item of items) {
    const key = String(keyOf(item));
    const element = old.get(key) ?? make(item);
    if (element.dataset.key !== key) element.dataset.key = key;
    old.delete(key);
    update?.(element, item);
    if (element === place) place = place.nextElementSibling;
    else parent.insertBefore(element, place);
  }
  for (const left of old.values()) left.remove();
}

/** Options of a select, replaced only when they differ, with the choice kept where it still exists. */
export function setOptions(select, options) {
  const same =
    select.options.length === options.length &&
    options.every((option, i) => select.options[i].value === option.value && select.options[i].text === option.text);
  if (same) return;
  const chosen = select.options.length > 0 ? select.value : null;
  select.replaceChildren(...options.map((option) => h('option', { value: option.value }, option.text)));
  if (options.some((option) => option.value === chosen)) select.value = chosen;
}

/**
 * A table with explicit roles. A narrow screen stacks its cells with `display`, and some browsers then drop the roles
 * of the elements.
 */
export function table(caption, columns, rows) {
  const head = h(
    'tr',
    { role: 'row' },
    columns.map(({ title, class: kind }) =>
      title === ''
        ? h('td', { role: 'cell', class: kind })
        : h('th', { role: 'columnheader', scope: 'col', class: kind }, title),
    ),
  );
  const body = rows.map((row) =>
    h(
      'tr',
      { role: 'row', class: row.class },
      columns.map((column) =>
        h('td', { role: 'cell', class: column.class, data: { label: column.title } }, h('span', {}, column.cell(row))),
      ),
    ),
  );
  return h(
    'table',
    { role: 'table', class: 'stack' },
    h('caption', {}, caption),
    h('thead', { role: 'rowgroup' }, head),
    h('tbody', { role: 'rowgroup' }, body),
  );
}

/** Announces a text to screen readers. */
export function announce(text) {
  const region = byId('announce');
  if (region) region.textContent = text;
}

/** Disables the button while `work` runs, and shows a failure in `output`. */
export async function whileBusy(button, output, work) {
  button.disabled = true;
  try {
    if (output) output.replaceChildren();
    return await work();
  } catch (problem) {
    problem.nameFields?.(button.form);
    if (output) output.replaceChildren(problemBox(problem));
    else announce(problem.message);
    return undefined;
  } finally {
    button.disabled = false;
  }
}

/** Makes a button that runs `work` when it is pressed, and shows a failure in `output`. */
export function actionButton(props, words, output, work) {
  const click = () => whileBusy(button, output, work);
  const button = h('button', { type: 'button', ...props, on: { click } }, words);
  return button;
}

export function problemBox(problem) {
  const lines = problem.problems ?? [];
  return h(
    'div',
    { class: 'problem', role: 'alert' },
    h('p', {}, problem.message),
    lines.length > 0 &&
      h(
        'ul',
        {},
        lines.map((line) => h('li', {}, line)),
      ),
  );
}
