// Opens the check of the container whose label was scanned.

import { byId, h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { groupName } from './seed-words.js';
import { checkRow } from './check-row.js';
import { texts } from './texts.js';

/** The groups with living seeds in a container, with their sowings. Pure. */
export const groupsIn = (sowings, container) =>
  sowings.flatMap((sowing) =>
    sowing.groups
      .filter((group) => group.container === container && group.ungerminated + group.germinated > 0)
      .map((group) => ({ sowing, group })),
  );

/**
 * Opens the only group at once; offers several as buttons; says if there is none. The container stands in the address,
 * and is removed from it, so that a reload does not open its check again.
 * @param openCheck opens the sheet of a group; @param goOn goes on with a round there, if one is under way
 */
export function openScanned({ tally, openCheck, goOn }) {
  const container = new URLSearchParams(location.search).get('container');
  if (container === null) return;
  history.replaceState(null, '', location.pathname);
  if (goOn(container)) return;
  const place = tally.containers.find((one) => one.id === container);
  const found = groupsIn(tally.sowings, container);
  if (found.length === 1) {
    openCheck(found[0].group.id);
    return;
  }
  const name = place?.name ?? container;
  const section = byId('scanned');
  section.hidden = false;
  section.replaceChildren(
    h('h2', { id: 'scanned-title' }, name),
    found.length > 0
      ? h(
          'ul',
          { class: 'rows' },
          found.map((one) => row(one, openCheck)),
        )
      : h('p', {}, place ? texts.noLivingSeedsInIt : texts.thereIsNoSuchContainer),
  );
}

const row = ({ sowing, group }, openCheck) =>
  checkRow(
    texts.group4(sowing.speciesName, groupName(group), f.count(group.ungerminated + group.germinated, texts.seedCount)),
    group,
    openCheck,
  );
