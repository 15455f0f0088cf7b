// Spreads work over frames, so that the page answers to touches meanwhile. The work of each frame is a task of its own
// after the frame was drawn, so that no task both works and draws.

const SLICE_MS = 6;
/** Pages in the background get no frames. */
const HIDDEN_MS = 250;

/**
 * Returns a function that asks for `work` to run after the next frame.
 * @param work called until it returns false or the slice of this frame is used up
 * @param after called at the end of each frame in which there was work
 */
export function inFrames(work, after = () => {}) {
  let asked = false;
  const run = () => {
    asked = false;
    const end = performance.now() + SLICE_MS;
    let more = true;
    while (more && performance.now() < end) more = work();
    after();
    if (more) ask();
  };
  function ask() {
    if (asked) return;
    asked = true;
    if (document.hidden) setTimeout(run, HIDDEN_MS);
    else requestAnimationFrame(() => setTimeout(run));
  }
  return ask;
}
