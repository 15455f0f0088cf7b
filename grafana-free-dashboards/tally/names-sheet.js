// The sheet that names a sowing, its groups and its seed lot.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { entryOf, pathOf } from './entry.js';
import { named } from './form-parts.js';
import { openSheet } from './sheet.js';
import { texts } from './texts.js';

const input = (value) => h('input', { value: value ?? '', maxlength: 60, autocomplete: 'off' });
const read = (field) => field.querySelector('input').value.trim() || null;

/**
 * @param lot the lot of the sowing; @param names the name of a container, by its id
 * @param write takes an entry; @param lotChanged called after the lot has changed
 */
export function openNames(sowing, lot, { names, write, lotChanged }) {
  const sowingName = named('sowingName', texts.nameOfTheSowing, input(sowing.name));
  const lotName = named('lotName', texts.nameOfLot(lot.id), input(lot.name));
  const accession = named('accession', texts.accessionNumber, input(lot.accession), texts.theNumberInTheSeed);
  const groups = sowing.groups.map((group) => ({
    group,
    field: named(`group-${group.id}`, texts.nameOfGroup(group.id, names(group.container)), input(group.name)),
  }));
  openSheet({
    title: texts.names,
    lead: texts.emptyForNone,
    content: [sowingName, lotName, accession, groups.map((one) => one.field)],
    save: async () => {
      const lotTyped = { name: read(lotName), accession: read(accession) };
      if (lotTyped.name !== lot.name || lotTyped.accession !== lot.accession) {
        const { id, species, seeds, gatheredAt, from, place, kept, remark } = lot;
        await api.changeLot(id, { species, seeds, gatheredAt, from, place, kept, remark, ...lotTyped });
        lotChanged();
      }
      const changes = [
        { was: sowing.name, name: read(sowingName), group: null, path: `/api/sowings/${sowing.id}/name` },
        ...groups.map(({ group, field }) => ({
          was: group.name,
          name: read(field),
          group: group.id,
          path: pathOf(group.id, 'name'),
        })),
      ];
      for (const { was, name, group, path } of changes) {
        if (name === was) continue;
        const what = group ? texts.groupNamed(group, name) : texts.sowingNamed(sowing.id, name);
        const trouble = await write(entryOf('name', group, what, path, { name }));
        if (trouble) return trouble;
      }
      return null;
    },
  });
}
