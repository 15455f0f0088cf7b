// The colours and dashes of lines that share a chart. The colours stand in colours.css; a test checks that no two
// look the same, to people with any kind of colour vision.

const DASHES = [undefined, [9, 4], [2, 3], [12, 3, 2, 3], [5, 3], undefined, [9, 4], [2, 3], [12, 3, 2, 3], [5, 3]];

/** The most lines that one chart shows. */
export const MOST_LINES = DASHES.length;

/** @param index of the line, from 0 */
export const lineStyle = (index) => ({ color: `--line-${index + 1}`, dash: DASHES[index] });
