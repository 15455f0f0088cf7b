// Draws the band, the limits and the marks. A mark is a stretch of time, such as an opening, or an instant, such as a
// check. Each kind of mark has a letter or sign and a pattern besides its colour.

export const MARKS = {
  cold: { letter: 'C', color: '--cold', pattern: 'falling' },
  hot: { letter: 'H', color: '--hot', pattern: 'rising' },
  dry: { letter: 'D', color: '--watch', pattern: 'rising' },
  daylight: { letter: 'S', color: '--alarm', pattern: 'rising' },
  lamp: { letter: 'L', color: '--alarm', pattern: 'falling' },
  other: { letter: 'X', color: '--alarm', pattern: 'upright' },
  opening: { letter: 'O', color: '--soft', pattern: 'none' },
  fault: { letter: 'F', color: '--watch', pattern: 'falling' },
  excluded: { letter: 'E', color: '--ink', pattern: 'upright' },
  checked: { letter: '✓', color: '--moss', instant: true },
  placed: { letter: '↓', color: '--ink', instant: true },
  removed: { letter: '↑', color: '--ink', instant: true },
  calibrated: { letter: '±', color: '--ink', instant: true },
};
const LEAST_WIDTH = 3;
const LETTER_ROOM = 11;
/** The height of the bar of one container, where several share a chart. */
const LANE = 6;

const ratio = () => devicePixelRatio || 1;

/** Over the grid and under the lines: zones of the y axis, marked stretches, limits. */
export function drawGround(u, paint) {
  const { ctx } = u;
  ctx.save();
  clip(u);
  for (const zone of paint.spec.zones?.() ?? []) fillZone(u, paint, zone);
  for (const mark of paint.shown().marks) fillMark(u, paint, mark);
  for (const value of paint.spec.limits?.() ?? []) strokeLimit(u, paint, value);
  ctx.restore();
}

/** Over the lines: a letter at the top of each mark, where there is room for it. */
export function drawLabels(u, paint) {
  const { ctx, bbox } = u;
  let free = -Infinity;
  ctx.save();
  ctx.font = `bold ${11 * ratio()}px ${getComputedStyle(u.root).fontFamily}`;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'bottom';
  for (const mark of paint.shown().marks) {
    const kind = MARKS[mark.kind];
    const [left, right] = edges(u, mark);
    const middle = (left + right) / 2;
    if (right < bbox.left || left > bbox.left + bbox.width || middle - free < LETTER_ROOM * ratio()) continue;
    ctx.fillStyle = paint.colour(mark.color ?? kind.color);
    ctx.fillText(kind.letter, Math.min(Math.max(middle, bbox.left + 4), bbox.left + bbox.width - 4), bbox.top - 1);
    free = middle;
  }
  ctx.restore();
}

function clip(u) {
  u.ctx.beginPath();
  u.ctx.rect(u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
  u.ctx.clip();
}

function fillZone(u, paint, zone) {
  const top = u.valToPos(zone.to, 'y', true);
  const bottom = u.valToPos(zone.from, 'y', true);
  u.ctx.fillStyle = paint.colour(zone.color);
  u.ctx.fillRect(u.bbox.left, top, u.bbox.width, bottom - top);
}

function strokeLimit(u, paint, value) {
  const y = Math.round(u.valToPos(value, 'y', true)) + 0.5;
  u.ctx.strokeStyle = paint.colour('--edge');
  u.ctx.lineWidth = ratio();
  u.ctx.setLineDash([6, 4]);
  u.ctx.beginPath();
  u.ctx.moveTo(u.bbox.left, y);
  u.ctx.lineTo(u.bbox.left + u.bbox.width, y);
  u.ctx.stroke();
  u.ctx.setLineDash([]);
}

function edges(u, mark) {
  const left = u.valToPos(mark.from, 'x', true);
  const right = u.valToPos(mark.to, 'x', true);
  const least = (MARKS[mark.kind].instant ? 1 : LEAST_WIDTH) * ratio();
  return right - left >= least ? [left, right] : [(left + right - least) / 2, (left + right + least) / 2];
}

/** A mark of one container among several is a bar in its colour; its lane tells whose it is. */
function fillMark(u, paint, mark) {
  const kind = MARKS[mark.kind];
  const [left, right] = edges(u, mark);
  const { ctx, bbox } = u;
  if (right < bbox.left || left > bbox.left + bbox.width) return;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, bbox.top, right - left, bbox.height);
  ctx.clip();
  ctx.fillStyle = ctx.strokeStyle = paint.colour(mark.color ?? kind.color);
  if (mark.lane !== undefined) {
    ctx.fillRect(left, bbox.top + mark.lane * LANE * ratio(), right - left, (LANE - 1) * ratio());
  } else if (kind.instant) {
    ctx.fillRect(left, bbox.top, right - left, bbox.height);
  } else {
    ctx.globalAlpha = 0.13;
    ctx.fillRect(left, bbox.top, right - left, bbox.height);
    ctx.globalAlpha = 0.35;
    hatch(ctx, kind.pattern, left, right, bbox);
    ctx.globalAlpha = 1;
    ctx.fillRect(left, bbox.top, right - left, 4 * ratio());
  }
  ctx.restore();
}

function hatch(ctx, pattern, left, right, bbox) {
  if (pattern === 'none') return;
  const step = 8 * ratio();
  const lean = { falling: -bbox.height, rising: bbox.height, upright: 0 }[pattern];
  ctx.lineWidth = ratio();
  ctx.beginPath();
  const first = Math.max(left, bbox.left) - Math.abs(lean);
  const last = Math.min(right, bbox.left + bbox.width) + Math.abs(lean);
  for (let x = first - (first % step); x < last; x += step) {
    ctx.moveTo(x, bbox.top + bbox.height);
    ctx.lineTo(x + lean, bbox.top);
  }
  ctx.stroke();
}
