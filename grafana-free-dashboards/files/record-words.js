// What came of taking the record over, in words. Pure.

import { count, number } from '../shared/format.js';
import { refusalWords } from '../shared/refusals.js';
import { texts } from './texts.js';

/** By the name of the table's file. */
const TABLES = {
  containers: texts.containers,
  sensors: texts.sensors,
  placements: texts.placements,
  'calibration-points': texts.calibrationPoints,
  calibrations: texts.calibrations,
  openings: texts.openings,
  species: texts.species,
  lots: texts.seedLots,
  entries: texts.entries,
};
export const tableNames = Object.keys(TABLES).join(', ');

/** Which table a file holds, by the name under which it is offered; null if the name tells none. */
export const tableOf = (name) => Object.keys(TABLES).find((table) => name.toLowerCase().startsWith(table)) ?? null;

export function takenWords({ table, rows, added }) {
  const title = TABLES[table];
  if (rows === 0) return texts.theFileHoldsNoRow(title);
  return texts.read(title, count(rows, texts.rowCount), added === 0 ? texts.nothingNew : texts.newWord(number(added)));
}

/** A refusal of the service, with a problem for each wrong line of a table; another problem is left as it is. */
export function troubleByLine(problem) {
  if (!problem.answer?.rule && !problem.answer?.table) return problem;
  const table = problem.answer.table;
  if (!table) return { message: texts.nothingImported, problems: [refusalWords(problem.answer)] };
  const lines = table.lines.map((one) => texts.lineIsWrong(one.line, refusalWords(one)));
  return {
    message: table.file ? texts.nothingImportedFrom(table.file) : texts.nothingImported,
    problems: table.more > 0 ? [...lines, texts.moreLinesAreWrong(number(table.more))] : lines,
  };
}
