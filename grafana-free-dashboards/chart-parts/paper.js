// Redraws charts for paper: in the colours of paper and as wide as a page. They are drawings of pixels, which a style
// sheet cannot change.

const watching = new Set();

function turn(onPaper) {
  document.documentElement.classList.toggle('on-paper', onPaper);
  for (const redraw of watching) redraw();
}

globalThis.addEventListener?.('beforeprint', () => turn(true));
globalThis.addEventListener?.('afterprint', () => turn(false));

/** Calls `redraw` before and after printing. Returns a function that ends this. */
export function watchPaper(redraw) {
  watching.add(redraw);
  return () => watching.delete(redraw);
}
