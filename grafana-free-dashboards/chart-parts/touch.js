// Touch on a chart: a tap shows the values there, a sideways drag zooms, two taps go back. Vertical drags scroll the
// page.

const DOUBLE_TAP_MS = 350;
const LEAST_DRAG = 12;

/** Returns a function that removes the listeners. */
export function watchTouch(plot, { onSelect, onReset }) {
  const area = plot.over;
  let start = null;
  let lastTap = -Infinity;
  area.style.touchAction = 'pan-y';

  const x = (event) => Math.min(Math.max(event.clientX - area.getBoundingClientRect().left, 0), area.clientWidth);
  const span = (event) => [Math.min(start, x(event)), Math.max(start, x(event))];

  const listeners = {
    pointerdown: (event) => {
      if (event.pointerType === 'mouse' || !event.isPrimary) return;
      start = x(event);
      area.setPointerCapture(event.pointerId);
    },
    pointermove: (event) => {
      if (start === null || event.pointerType === 'mouse') return;
      const [left, right] = span(event);
      plot.setCursor({ left: x(event), top: 1 });
      if (right - left > LEAST_DRAG)
        plot.setSelect({ left, top: 0, width: right - left, height: area.clientHeight }, false);
    },
    pointerup: (event) => {
      if (start === null || event.pointerType === 'mouse') return;
      const [left, right] = span(event);
      start = null;
      if (right - left > LEAST_DRAG) onSelect(left, right);
      else tap(event);
    },
    pointercancel: () => {
      start = null;
      plot.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
    },
  };

  function tap(event) {
    if (event.timeStamp - lastTap < DOUBLE_TAP_MS) onReset();
    else plot.setCursor({ left: x(event), top: 1 });
    lastTap = event.timeStamp;
  }

  for (const [type, listener] of Object.entries(listeners)) area.addEventListener(type, listener);
  return () => {
    for (const [type, listener] of Object.entries(listeners)) area.removeEventListener(type, listener);
  };
}
